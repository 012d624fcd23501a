import { sha256 } from "./canonical.ts";
import { readBindings, textHash } from "./entry-bytes.ts";
import type { EntryFault } from "./finding.ts";

/** An entry as it stands in the database. */
export interface KeptEntry {
  readonly subject: string;
  readonly version: number;
  readonly subjectKind: string;
  readonly kind: string;
  readonly bytes: Buffer;
  readonly hash: Buffer;
}

/** A free text as it stands beside its entry. */
export interface KeptText {
  readonly name: string;
  readonly salt: Buffer;
  readonly body: string | null;
}

/** Checks an entry's bytes against their hash, its row and its texts against what the bytes bind. */
export function checkEntry(entry: KeptEntry, texts: readonly KeptText[]): EntryFault[] {
  const faults: EntryFault[] = [];
  if (!sha256(entry.bytes).equals(entry.hash)) faults.push({ code: "entry-changed" });
  try {
    const bindings = readBindings(entry.bytes);
    const bound = { ...bindings.about, entryKind: bindings.kind };
    const columns = [
      ["subject", entry.subject, bound.id],
      ["version", entry.version, bound.version],
      ["subject_kind", entry.subjectKind, bound.kind],
      ["kind", entry.kind, bound.entryKind],
    ] as const;
    for (const [column, was, should] of columns) {
      if (was !== should)
        faults.push({ code: "entry-misplaced", column, was: String(was), should: String(should) });
    }
    return [...faults, ...checkTexts(bindings.texts, texts)];
  } catch {
    return [...faults, { code: "entry-unreadable" }];
  }
}

function checkTexts(bound: Readonly<Record<string, string>>, texts: readonly KeptText[]): EntryFault[] {
  const faults: EntryFault[] = [];
  const unseen = new Set(Object.keys(bound));
  for (const { name, salt, body } of texts) {
    unseen.delete(name);
    const should = bound[name];
    if (should === undefined) faults.push({ code: "text-unknown", name });
    else if (body === null) faults.push({ code: "text-missing", name });
    else if (textHash({ salt, body }).toString("hex") !== should) faults.push({ code: "text-changed", name });
  }
  for (const name of unseen) faults.push({ code: "text-missing", name });
  return faults;
}
