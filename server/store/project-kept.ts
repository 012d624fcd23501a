import type { Uuid } from "../domain/ids.ts";
import type { EntriesOf, SubjectKind } from "../domain/subjects.ts";
import { checkEntry } from "../ledger/check-entry.ts";
import { readEntryBytes } from "../ledger/entry-bytes.ts";
import type { Finding } from "../ledger/finding.ts";
import { projectSubject, SubjectFault } from "./project-subject.ts";
import type { Projection } from "./projected-rows.ts";
import type { KeptSubject } from "./walk-subjects.ts";

/** Checks the entries of one subject against what their bytes bind, and their versions for gaps. */
export function checkSubject({ id, entries }: KeptSubject): Finding[] {
  const findings: Finding[] = [];
  let next = 1;
  for (const entry of entries) {
    for (; next < entry.version; next++) findings.push({ code: "entry-missing", subject: id, version: next });
    next = entry.version + 1;
    for (const fault of checkEntry(entry, entry.texts)) {
      findings.push({ ...fault, subject: id, version: entry.version });
    }
  }
  return findings;
}

/** Computes the rows that a subject's kept entries make true, or says why no rows follow from them. */
export function projectKept({ id, entries }: KeptSubject): Projection | Finding {
  const kinds = new Set(entries.map((entry) => entry.subjectKind));
  const [kind] = kinds;
  if (kind === undefined || kinds.size > 1) {
    return { code: "entries-unreadable", subject: id, why: `they are about ${[...kinds].join(" and ")}` };
  }
  try {
    const read = entries.map(({ version, bytes }) => ({
      version,
      entry: readEntryBytes(bytes) as EntriesOf[SubjectKind],
    }));
    return projectSubject(kind as SubjectKind, id as Uuid, read);
  } catch (failure) {
    if (failure instanceof SubjectFault) {
      const { code, version } = failure.fault;
      return { code: "entries-contradict", subject: id, version, fault: code };
    }
    return { code: "entries-unreadable", subject: id, why: failure instanceof Error ? failure.message : "" };
  }
}

/** Tells a finding from the rows that follow from a subject's entries. */
export function isFinding(projected: Projection | Finding): projected is Finding {
  return "code" in projected;
}
