import { type ChainEnd, checkAct, checkLink, NO_ACTS } from "../ledger/check-chain.ts";
import type { Finding } from "../ledger/finding.ts";
import { checkEntries, compareBatch } from "../store/check-batch.ts";
import type { Db } from "../store/db.ts";
import { atOneMoment, type Snapshot } from "../store/snapshot.ts";
import { entriesOfAct, entriesWithoutAct, readHead, roughCounts, walkActs } from "../store/walk-acts.ts";
import { walkSubjects } from "../store/walk-subjects.ts";
import { FindingsKept } from "./findings-kept.ts";
import type { OnProgress } from "./progress.ts";
import { checkSeal, type Seal, sealedPosition } from "./seal.ts";

/** What a check of the whole ledger came to. */
export interface Verification {
  readonly acts: number;
  readonly entries: number;
  readonly subjects: number;
  /** The last act: its position, and the hash that seals all before it. */
  readonly position: number;
  readonly hash: string;
  readonly findings: readonly Finding[];
  /** All that were found, told or not. */
  readonly findingCount: number;
}

export interface VerifyOptions {
  readonly seals?: readonly Seal[];
  readonly onProgress?: OnProgress;
}

/**
 * Checks the whole ledger at one moment, in two passes and constant memory: acts by position against their entries'
 * hashes, the chain, the head and the seals; then entries by subject against their bytes, and every projected table
 * against the rows that follow from the entries alone.
 */
export function verifyLedger(db: Db, options: VerifyOptions = {}): Promise<Verification> {
  return atOneMoment(db, async (snapshot) => {
    const found = new FindingsKept();
    const totals = await roughCounts(snapshot.aside);
    const chain = await walkChain(snapshot, options, found, totals.acts);
    const subjects = await walkEntries(snapshot, options, found, totals.entries);
    if (subjects.entries !== chain.entries) {
      const loose = await entriesWithoutAct(snapshot.aside, 100);
      found.add(loose.map((entry) => ({ code: "entry-without-act", ...entry })));
    }
    return {
      acts: chain.acts,
      ...subjects,
      position: chain.end.position,
      hash: chain.end.hash.toString("hex"),
      findings: found.told,
      findingCount: found.count,
    };
  });
}

async function walkChain(
  { reading, aside }: Snapshot,
  { seals = [], onProgress }: VerifyOptions,
  found: FindingsKept,
  total: number,
): Promise<{ acts: number; entries: number; end: ChainEnd }> {
  const sealed: (number | undefined)[] = [];
  for (const seal of seals) sealed.push(await sealedPosition(aside, seal));
  let end: ChainEnd = NO_ACTS;
  let acts = 0;
  let entries = 0;
  for await (const batch of walkActs(reading)) {
    for (const act of batch) {
      const findings = [...checkLink(end, act), ...checkAct(act)];
      if (findings.length > 0) found.add(await withEntries(aside, findings));
      for (const [index, seal] of seals.entries()) {
        if (sealed[index] === act.position) found.add(checkSeal(seal, act));
      }
      entries += act.entriesThere;
      end = act;
    }
    acts += batch.length;
    onProgress?.({ phase: "acts", done: acts, total });
  }
  for (const [index, seal] of seals.entries()) {
    const position = sealed[index];
    if (position === undefined) found.add([{ code: "seal-without-act", day: "day" in seal ? seal.day : "" }]);
    else if (position > end.position) found.add([{ code: "seal-beyond-end", position, last: end.position }]);
  }
  const head = (await readHead(aside)) ?? NO_ACTS;
  const isHead =
    head.position === end.position && head.hash.equals(end.hash) && head.recordedAt === end.recordedAt;
  if (!isHead) found.add([{ code: "head-differs", head: head.position, last: end.position }]);
  return { acts, entries, end };
}

/** A changed act is told with the entries that it wrote, since one of them may be what was changed. */
async function withEntries(aside: Snapshot["aside"], findings: readonly Finding[]): Promise<Finding[]> {
  const told: Finding[] = [];
  for (const finding of findings) {
    const isOfEntries = finding.code === "act-changed";
    told.push(isOfEntries ? { ...finding, entries: await entriesOfAct(aside, finding.act) } : finding);
  }
  return told;
}

async function walkEntries(
  snapshot: Snapshot,
  { onProgress }: VerifyOptions,
  found: FindingsKept,
  total: number,
): Promise<{ entries: number; subjects: number }> {
  let entries = 0;
  let subjects = 0;
  // The database compares one batch while the next is read and folded here.
  let comparing: Promise<readonly Finding[]> = Promise.resolve([]);
  for await (const batch of walkSubjects(snapshot.reading)) {
    const checked = checkEntries(batch);
    found.add(checked.findings);
    found.add(await comparing);
    comparing = compareBatch(snapshot.aside, checked);
    comparing.catch(() => {});
    subjects += batch.subjects.length;
    for (const subject of batch.subjects) entries += subject.entries.length;
    onProgress?.({ phase: "entries", done: entries, total });
  }
  found.add(await comparing);
  return { entries, subjects };
}
