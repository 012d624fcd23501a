import type { Uuid } from "../domain/ids.ts";
import { type ActHeader, actDigest, FIRST_PREV, linkHash } from "./chain.ts";
import type { Finding } from "./finding.ts";

/** An act as it stands in the database, with what it says of its entries. Times are milliseconds since 1970 UTC. */
export interface ChainedAct extends ActHeader {
  readonly id: Uuid;
  readonly position: number;
  readonly entryCount: number;
  readonly digest: Buffer;
  readonly prev: Buffer;
  readonly hash: Buffer;
  readonly recordedAt: number;
  /** How many entries name this act, and the highest of their numbers in it. */
  readonly entriesThere: number;
  readonly lastN: number;
  /** The hashes of these entries in their order, one after the other. */
  readonly entryHashes: Buffer;
}

export interface ChainEnd {
  readonly position: number;
  readonly hash: Buffer;
  readonly recordedAt: number;
}
export const NO_ACTS: ChainEnd = { position: 0, hash: FIRST_PREV, recordedAt: 0 };

/** Checks one act by itself: its entries, its digest and its link. */
export function checkAct(act: ChainedAct): Finding[] {
  const { position, id } = act;
  const isWhole = act.entriesThere === act.entryCount && act.lastN === act.entryCount;
  const findings: Finding[] = [];
  if (!isWhole) {
    const code = act.entriesThere < act.entryCount ? "entries-missing" : "entries-added";
    findings.push({ code, position, act: id, was: act.entriesThere, should: act.entryCount });
  } else if (!wholeNumbers(act) || !actDigest(act, [act.entryHashes]).equals(act.digest)) {
    findings.push({ code: "act-changed", position, act: id });
  }
  const isLinked =
    Number.isSafeInteger(act.recordedAt) &&
    linkHash(act.prev, position, act.digest, act.recordedAt).equals(act.hash);
  if (!isLinked) findings.push({ code: "hash-differs", position, act: id });
  return findings;
}

/** Checks an act against the one before it in the walk; a gap between them is a finding and breaks no chain. */
export function checkLink(before: ChainEnd, act: ChainedAct): Finding[] {
  const { position, id } = act;
  const findings: Finding[] = [];
  if (position > before.position + 1) {
    findings.push({ code: "act-missing", position: before.position + 1, through: position - 1 });
  } else if (!act.prev.equals(before.hash)) findings.push({ code: "chain-broken", position, act: id });
  if (act.recordedAt < before.recordedAt) findings.push({ code: "time-goes-back", position, act: id });
  return findings;
}

/** The database keeps finer times than the ledger writes: one that is no whole millisecond was put there by hand. */
function wholeNumbers(act: ChainedAct): boolean {
  return Number.isSafeInteger(act.at) && Number.isSafeInteger(act.sentAt);
}
