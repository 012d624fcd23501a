import type { Finding } from "../ledger/finding.ts";

export type { Finding } from "../ledger/finding.ts";

/** Says in one line what was found, where, and what it was and should be. */
export function sayFinding(finding: Finding): string {
  switch (finding.code) {
    case "act-missing":
      return finding.position === finding.through
        ? `Act ${finding.position} is missing.`
        : `Acts ${finding.position} to ${finding.through} are missing.`;
    case "act-changed": {
      const entries = finding.entries?.map(({ subject, version }) => `${subject} version ${version}`) ?? [];
      const wrote = entries.length > 0 ? ` It wrote ${entries.join(", ")}.` : "";
      return `Act ${finding.position} (${finding.act}) or an entry of it was changed after it was written.${wrote}`;
    }
    case "hash-differs":
      return `Act ${finding.position} (${finding.act}) does not have the hash that its facts give.`;
    case "chain-broken":
      return `The chain is broken before act ${finding.position}: the act before it is not the one that it was written after.`;
    case "time-goes-back":
      return `Act ${finding.position} (${finding.act}) says that it was recorded before the act before it.`;
    case "entries-missing":
      return `Act ${finding.position} (${finding.act}) wrote ${finding.should} entries; ${finding.was} are there.`;
    case "entries-added":
      return `Act ${finding.position} (${finding.act}) wrote ${finding.should} entries; ${finding.was} name it.`;
    case "head-differs":
      return `The head of the ledger says ${finding.head}; the last act there is ${finding.last}.`;
    case "seal-differs":
      return finding.day === undefined
        ? `Act ${finding.position} does not have the sealed hash: it or something before it was written anew.`
        : `The last act of ${finding.day}, number ${finding.position}, does not have the sealed hash: something up to it was changed, or acts of that day were taken away.`;
    case "seal-beyond-end":
      return `The seal is of act ${finding.position}; the ledger ends at ${finding.last}. What came after was taken away.`;
    case "seal-without-act":
      return `The seal is of ${finding.day}; no act was recorded until then.`;
    case "entries-contradict":
      return `The entries of ${finding.subject} contradict each other at version ${finding.version}: ${finding.fault}.`;
    case "entries-unreadable":
      return `What follows from the entries of ${finding.subject} cannot be told: ${finding.why}.`;
    case "cell-differs":
      return `${rowName(finding)}: ${finding.column} is ${finding.was} and should be ${finding.should}.`;
    case "row-missing":
      return `${rowName(finding)}: the row is missing.`;
    case "row-extra":
      return `${rowName(finding)}: the row follows from no entry.`;
    default:
      return `Entry ${finding.version} of ${finding.subject} ${saidOfEntry(finding)}.`;
  }
}

function rowName({ table, subject, row }: { table: string; subject: string; row: string }): string {
  return `Table ${table}, ${subject}${row === "" ? "" : `, ${row}`}`;
}

type OfEntry = Extract<Finding, { readonly subject: unknown; readonly version: number }>;

function saidOfEntry(finding: Exclude<OfEntry, { readonly code: "entries-contradict" }>): string {
  switch (finding.code) {
    case "entry-changed":
      return "was changed: its bytes do not give its hash";
    case "entry-misplaced":
      return `says ${finding.column} ${finding.was} in its row and ${finding.should} in its bytes`;
    case "entry-unreadable":
      return "cannot be read";
    case "entry-missing":
      return "is missing";
    case "entry-without-act":
      return `names the act ${finding.act}, which is not there`;
    case "text-changed":
      return `has a text, ${finding.name}, that was changed`;
    case "text-missing":
      return `has lost its text, ${finding.name}`;
    case "text-unknown":
      return `has a text, ${finding.name}, that it was not written with`;
  }
}
