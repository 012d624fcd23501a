import { type RestoreRefusal, restore } from "../../cases/restore.ts";
import { BadInput, type Command, EXIT, withDatabase } from "../command.ts";
import { DamagedFile, packedLines } from "../packed-file.ts";
import { sayVerification } from "../say-verification.ts";

export const restoreCommand: Command = {
  name: "restore",
  summary: "Bring a backup into an empty database, and verify what came of it.",
  arguments: ["FILE"],
  options: {},
  details: [
    "All of it or nothing: acts and entries come in byte for byte, and the tables that follow are built from them.",
    "For an empty database set DATA_DIR to a new folder, or DATABASE_URL to a new database. People sign in as before.",
  ],
  async run(given, house) {
    const [name = ""] = given.arguments;
    const lines = packedLines(name);
    if (!lines) throw new BadInput(`There is no file ${name} that can be read.`);
    return withDatabase(house, { mayBeNew: true }, async ({ db }) => {
      const outcome = await restored(() => restore(db, lines, house.progress));
      if ("refused" in outcome) {
        const line = sayRefusal(name, outcome.refused);
        return { code: EXIT.found, lines: [line], json: { refused: outcome.refused, says: line } };
      }
      const said = sayVerification(outcome.verification);
      return {
        ...said,
        lines: [`${name} was restored.`, ...said.lines],
        json: { counts: outcome.counts, ...said.json },
      };
    });
  },
};

async function restored<Result>(
  work: () => Promise<Result>,
): Promise<Result | { readonly refused: RestoreRefusal }> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof DamagedFile)) throw error;
    return { refused: error.isCutOff ? { code: "cut-off" } : { code: "damaged", why: error.message } };
  }
}

function sayRefusal(name: string, refusal: RestoreRefusal): string {
  switch (refusal.code) {
    case "not-a-backup":
      return `${name} is not a backup of Layertrail. Nothing was restored.`;
    case "made-by-newer":
      return `${name} was made by a newer Layertrail (${refusal.what}). Restore it with that one.`;
    case "not-empty":
      return "The database is not empty. Set DATA_DIR to a new folder, or DATABASE_URL to a new database.";
    case "cut-off":
      return `${name} ends before its end: it was not written or not copied to the last byte. Nothing was restored.`;
    case "damaged":
      return `${name} is damaged: ${refusal.why}. Nothing was restored; take another copy of it.`;
  }
}
