import fs from "node:fs";
import { sayFinding } from "../../cases/finding-words.ts";
import { parseSeal, type Seal } from "../../cases/seal.ts";
import { verifyLedger } from "../../cases/verify.ts";
import { findPiece, verifyPiece } from "../../cases/verify-piece.ts";
import { BadInput, type Command, EXIT, type House, type Outcome, withDatabase } from "../command.ts";
import { sayVerification } from "../say-verification.ts";

export const verifyCommand: Command = {
  name: "verify",
  summary: "Check that the ledger is whole and that every table follows from it.",
  arguments: [],
  options: {
    seal: {
      type: "string",
      multiple: true,
      value: "SEAL",
      says: "check against a seal kept elsewhere: POSITION:HASH, DAY:HASH, or a file that holds one",
    },
    piece: { type: "string", value: "ID|TAG", says: "check one piece alone, by its id or a tag number" },
  },
  details: [
    "Finds and names what was changed, dropped, added or forged, in the acts, the entries, their texts and every table",
    "that follows from them. Only a seal shows that the end of the ledger was cut off or that all of it was written",
    "anew: the day sheet and each backup bear one. The server may run meanwhile.",
  ],
  async run(given, house) {
    const seals = given.texts("seal").map(readSeal);
    const piece = given.text("piece");
    if (piece === undefined) {
      return withDatabase(house, { mayBeNew: false }, async ({ db }) =>
        sayVerification(await verifyLedger(db, { seals, onProgress: house.progress })),
      );
    }
    if (seals.length > 0)
      throw new BadInput("A seal is of the whole ledger: give --seal or --piece, not both.");
    return onePiece(piece, house);
  },
};

function onePiece(text: string, house: House): Promise<Outcome> {
  return withDatabase(house, { mayBeNew: false }, async ({ db }) => {
    const piece = await findPiece(db, text);
    if (!piece)
      throw new BadInput(`"${text}" is no piece's id and no number of a tag that was attached to a piece.`);
    const { findings, ...read } = await verifyPiece(db, piece);
    const isGood = findings.length === 0;
    const counted = `${read.entries} entries of the piece ${piece} and ${read.acts} acts that wrote them were read`;
    return {
      code: isGood ? EXIT.ok : EXIT.found,
      lines: isGood
        ? [`${counted}; they are whole, and its rows follow from them.`]
        : [`${counted}.`, ...findings.map(sayFinding)],
      json: { ok: isGood, ...read, findings: findings.map((one) => ({ ...one, says: sayFinding(one) })) },
    };
  });
}

function readSeal(text: string): Seal {
  const seal = parseSeal(text) ?? parseSeal(contentOf(text));
  if (seal) return seal;
  throw new BadInput(
    `"${text}" is no seal: a seal is POSITION:HASH or DAY:HASH with 64 hexadecimal digits, or a file that holds one.`,
  );
}

function contentOf(name: string): string {
  try {
    return fs.readFileSync(name, "utf8").slice(0, 100_000);
  } catch {
    return "";
  }
}
