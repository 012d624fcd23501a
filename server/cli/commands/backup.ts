import { backUp } from "../../cases/backup.ts";
import { BadInput, type Command, EXIT, withDatabase } from "../command.ts";
import { newPackedFile } from "../packed-file.ts";

export const backupCommand: Command = {
  name: "backup",
  summary: "Write everything that the department has into one new file.",
  arguments: ["FILE"],
  options: {
    "without-scans": {
      type: "boolean",
      says: "leave out every scan with its answer, and so what was last seen when",
    },
  },
  details: [
    "The server may run meanwhile: the backup is of one moment. It holds people's names and the hashes of their",
    "passphrases, so keep it as you would keep the server. Who is signed in and unused links are left out.",
  ],
  async run(given, house) {
    const [name = ""] = given.arguments;
    const file = newPackedFile(name);
    if (!file) throw new BadInput(`${name} is there already. Name a new file, or remove that one.`);
    try {
      const made = await withDatabase(house, { mayBeNew: false }, ({ db }) =>
        backUp(db, file.write, {
          nowMs: house.now(),
          withScans: !given.isSet("without-scans"),
          onProgress: house.progress,
        }),
      );
      const bytes = await file.finish();
      const { position, hash, counts } = made;
      const entries = (counts["entry"] ?? 0).toLocaleString("en-US");
      return {
        code: EXIT.ok,
        lines: [
          `${name}: the ledger up to act ${position.toLocaleString("en-US")} with ${entries} entries, ${bytes.toLocaleString("en-US")} bytes.`,
          `Its seal is ${position}:${hash}`,
        ],
        json: { file: name, bytes, position, hash, counts },
      };
    } catch (error) {
      await file.discard();
      throw error;
    }
  },
};
