import { sayFinding } from "../cases/finding-words.ts";
import type { Verification } from "../cases/verify.ts";
import { EXIT, type Outcome } from "./command.ts";

/** Findings that a person reads on a screen; a program gets all that were kept. */
const SHOWN = 50;

/** Says what a check came to: what was read, each finding, and the seal of the ledger as it stands. */
export function sayVerification(verification: Verification): Outcome {
  const { acts, entries, subjects, position, hash, findings, findingCount } = verification;
  const count = (number: number, one: string, more: string) =>
    `${number.toLocaleString("en-US")} ${number === 1 ? one : more}`;
  const read = `${count(acts, "act", "acts")}, ${count(entries, "entry", "entries")} of ${count(subjects, "subject", "subjects")} were read`;
  const isGood = findingCount === 0;
  const shown = findings.slice(0, SHOWN).map(sayFinding);
  const rest = findingCount - shown.length;
  return {
    code: isGood ? EXIT.ok : EXIT.found,
    lines: [
      isGood ? `${read}; the chain is whole and every table follows from it.` : `${read}.`,
      ...shown,
      ...(rest > 0 ? [`… and ${count(rest, "finding", "findings")} more.`] : []),
      ...(isGood ? [] : [`${count(findingCount, "finding", "findings")}.`]),
      ...(position > 0 ? [`The seal of act ${position} is ${position}:${hash}`] : []),
    ],
    json: {
      ok: isGood,
      ...verification,
      findings: findings.map((one) => ({ ...one, says: sayFinding(one) })),
    },
  };
}
