import type { Evidence } from "../domain/evidence.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { Named } from "../domain/piece-view.ts";
import type { TraceAsked } from "../domain/tracing/kept-trace.ts";
import type {
  KeptTrace,
  OutcomeView,
  TraceContact,
  TraceListed,
  TraceView,
} from "../domain/tracing/trace-view.ts";
import { departmentZone } from "../store/days.ts";
import type { Db, Tx } from "../store/db.ts";
import {
  changesSince,
  findKeptTrace,
  type KeptTraceRow,
  listKeptTraces,
  type OutcomeRow,
  outcomesOf,
  seenAfter,
} from "../store/kept-traces.ts";
import { askNames, nameAccount, namesFromRows } from "../store/names.ts";
import { readOnly } from "../store/snapshot.ts";
import { askedOf } from "./trace-acts.ts";
import { traceRecord } from "./trace-record.ts";
import { showTrace } from "./trace-shown.ts";

/** Changes that are told one by one; more are the same news. */
const MOST_CHANGES = 50;
const MOST_TRACES = 200;

/** Traces the record as it stands, without keeping anything. Undefined: no piece was there then. */
export function previewTrace(db: Db, asked: TraceAsked, now: number): Promise<TraceView | undefined> {
  return readOnly(db, async (tx) => {
    const record = await traceRecord(tx, asked, now);
    return record && showTrace(tx, record);
  });
}

/**
 * Shows a kept trace with what became of its contacts. The picture is of today's record; where that is no longer what
 * was kept, the changes are told, and what walking it anew would add and take away.
 */
export function readKeptTrace(db: Db, id: Uuid, now: number): Promise<TraceView | undefined> {
  return readOnly(db, async (tx) => {
    const row = await findKeptTrace(tx, id);
    if (!row) return undefined;
    const { facts } = row;
    const record = await traceRecord(tx, { ...askedOf(facts), until: windowEnd(row) }, now);
    const shown = record ? await showTrace(tx, record) : undefined;
    if (!shown) return undefined;
    const rows = await outcomesOf(tx, id);
    const missing = rows.filter(({ outcome }) => outcome === "not found");
    const seen = await seenAfter(
      tx,
      missing.map(({ piece, outcome_at }) => ({ piece, at: outcome_at })),
    );
    const byOutcome = namesFromRows(await askNames(tx, [row.kept_by, ...rows.map((one) => one.outcome_by)]));
    const outcomes = new Map(
      rows.map((one) => [
        one.piece,
        outcomeShown(one, nameAccount(one.outcome_by, byOutcome), seen.get(one.piece)),
      ]),
    );
    const contacts = shown.contacts.map((contact): TraceContact => {
      const outcome = outcomes.get(contact.piece);
      return outcome ? { ...contact, outcome } : contact;
    });
    const kept = await keptShown(tx, row, shown, outcomes, nameAccount(row.kept_by, byOutcome));
    return { ...shown, contacts, kept, names: { ...shown.names, ...byOutcome } };
  });
}

/** The window stays as it was kept, so that the same question is asked of another record. */
function windowEnd({ facts }: KeptTraceRow) {
  return facts.direction === "forward" ? facts.to : facts.from;
}

function outcomeShown(row: OutcomeRow, by: Named, seen: Date | undefined): OutcomeView {
  return {
    ...{ outcome: row.outcome, at: row.outcome_at.toISOString(), by, version: row.version },
    evidence: row.evidence as Evidence,
    ...(row.has_reason ? { reason: row.reason } : {}),
    ...(seen ? { seenSince: seen.toISOString() } : {}),
  };
}

async function keptShown(
  tx: Tx,
  row: KeptTraceRow,
  shown: TraceView,
  outcomes: ReadonlyMap<PieceId, OutcomeView>,
  keptBy: Named,
): Promise<KeptTrace> {
  const { facts } = row;
  const changes = await changesSince(tx, facts, MOST_CHANGES);
  const settled = facts.contacts.filter(({ piece }) => {
    const outcome = outcomes.get(piece);
    return outcome !== undefined && outcome.seenSince === undefined;
  });
  const found = settled.filter(({ piece }) => outcomes.get(piece)?.outcome !== "not found");
  const last = Math.max(0, ...settled.map(({ piece }) => Date.parse(outcomes.get(piece)?.at ?? "")));
  const anew = changes.length > 0 ? await difference(tx, row, shown) : undefined;
  const reopened = settled.length < facts.contacts.length;
  return {
    ...{ id: row.id, version: row.version, name: row.name, isDrill: row.is_drill, keptBy },
    keptAt: row.kept_at.toISOString(),
    position: Number(row.read_position),
    // A closed trace of which a missing piece was seen since is open again.
    status: row.closed_at && !reopened ? "closed" : "open",
    ...(row.closed_at ? { closedAt: row.closed_at.toISOString() } : {}),
    changedSince: changes.map((change) => ({
      position: Number(change.position),
      at: change.at.toISOString(),
      recordedAt: change.recorded_at.toISOString(),
      command: change.command,
      subject: change.subject,
    })),
    ...(anew ? { anew } : {}),
    ...(row.is_drill
      ? {
          drill: {
            toListMs: facts.tookMs,
            ...(last > 0 ? { toLastOutcomeMs: last - row.kept_at.getTime() } : {}),
            ...(facts.contacts.length > 0 ? { foundShare: found.length / facts.contacts.length } : {}),
          },
        }
      : {}),
  };
}

/** What today's record would add to the list that was kept, take from it, or tell otherwise. */
async function difference(tx: Tx, { facts }: KeptTraceRow, shown: TraceView): Promise<KeptTrace["anew"]> {
  const was = new Map(facts.contacts.map((contact) => [contact.piece, contact]));
  const is = new Map(shown.contacts.map((contact) => [contact.piece, contact]));
  const gone = facts.contacts.filter(({ piece }) => !is.has(piece)).map(({ piece }) => piece);
  const names = namesFromRows(await askNames(tx, gone));
  const otherwise = shown.contacts.filter(({ piece, hops, firstMoment }) => {
    const before = was.get(piece);
    return before !== undefined && (before.hops !== hops || before.at !== Date.parse(firstMoment));
  });
  return {
    added: shown.contacts.filter(({ piece }) => !was.has(piece)).map(({ name }) => name),
    gone: gone.map((piece) => names[piece] ?? { kind: "piece", id: piece, name: "piece" }),
    otherwise: otherwise.map(({ name }) => name),
  };
}

/** Lists kept traces, newest first. */
export async function listTraces(db: Db): Promise<readonly TraceListed[]> {
  const rows = await listKeptTraces(db, MOST_TRACES);
  const names = namesFromRows(
    await askNames(
      db,
      rows.map(({ kept_by }) => kept_by),
    ),
  );
  return rows.map((row) => ({
    ...{ id: row.id, name: row.name, direction: row.direction, isDrill: row.is_drill },
    keptAt: row.kept_at.toISOString(),
    keptBy: nameAccount(row.kept_by, names),
    contacts: row.contacts,
    settled: row.settled,
    ...(row.closed_at ? { closedAt: row.closed_at.toISOString() } : {}),
  }));
}

/** The time zone in which people of the department read times. */
export function zoneOfDepartment(db: Db): Promise<string> {
  return departmentZone(db);
}
