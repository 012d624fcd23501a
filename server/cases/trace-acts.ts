import type { PieceId, Uuid } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import {
  foldTrace,
  type TraceAsked,
  type TraceFacts,
  type TraceRecord,
} from "../domain/tracing/kept-trace.ts";
import {
  closeTrace,
  onTrace,
  type RecordOutcome,
  recordOutcome,
  reopenTrace,
} from "../domain/tracing/trace-acts.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { seenAfter } from "../store/kept-traces.ts";
import type { Act } from "./run-act.ts";
import { traceRecord } from "./trace-record.ts";

/** Keeps a trace: what it was asked, what it read and what it found, as a list to work through. */
export interface KeepTrace {
  readonly id: Uuid;
  readonly name: string;
  /** A drill places no holds and is told apart everywhere. */
  readonly isDrill: boolean;
  readonly asked: TraceAsked;
}
export const keepTraceAct: Act<KeepTrace> = {
  name: "keepTrace",
  rules: "shared",
  async decide(scope, { id, name, isDrill, asked }, { at, by }) {
    await takeSubjects(scope, "trace", [id]);
    if (entriesOf(scope, "trace", id).length > 0)
      return { refusals: [{ code: "name-taken", what: "trace", name }] };
    const trace = await walked(scope, { name, isDrill, asked }, at);
    if ("refusals" in trace) return trace;
    return { entries: [onTrace(id, { kind: "TraceKept", at, by, trace })] };
  },
};

/** Walks a kept trace anew on today's record. What was recorded as outcome stays with its piece. */
export interface TraceAnew {
  readonly trace: Uuid;
}
export const traceAnewAct: Act<TraceAnew> = {
  name: "traceAnew",
  rules: "shared",
  async decide(scope, { trace: id }, { at, by }) {
    const before = await takeTrace(scope, id);
    if ("refusals" in before) return before;
    if (before.closedAt !== undefined) return { refusals: [{ code: "closed", subject: id, what: "trace" }] };
    const { name, isDrill } = before.facts;
    const trace = await walked(scope, { name, isDrill, asked: askedOf(before.facts) }, at);
    if ("refusals" in trace) return trace;
    return { entries: [onTrace(id, { kind: "TraceKept", at, by, trace })] };
  },
};

export const recordOutcomeAct: Act<RecordOutcome> = {
  name: "recordOutcome",
  rules: "shared",
  async decide(scope, command, envelope) {
    const trace = await takeTrace(scope, command.trace);
    return "refusals" in trace ? trace : recordOutcome(trace, command, envelope);
  },
};

export interface CloseTrace {
  readonly trace: Uuid;
}
export const closeTraceAct: Act<CloseTrace> = {
  name: "closeTrace",
  rules: "shared",
  async decide(scope, { trace: id }, envelope) {
    const trace = await takeTrace(scope, id);
    if ("refusals" in trace) return trace;
    return closeTrace(trace, new Set((await sightings(scope, trace)).keys()), envelope);
  },
};

export interface ReopenTrace {
  readonly trace: Uuid;
  readonly reason?: string;
}
export const reopenTraceAct: Act<ReopenTrace> = {
  name: "reopenTrace",
  rules: "shared",
  async decide(scope, { trace: id, reason }, { by, at }) {
    const trace = await takeTrace(scope, id);
    return "refusals" in trace ? trace : reopenTrace(trace, { by, at, ...(reason ? { reason } : {}) });
  },
};

/** What was asked, as it was asked. */
export function askedOf({ start, direction, hops, until, carriers, kinds }: TraceFacts): TraceAsked {
  return {
    ...{ start, direction, hops, carriers },
    ...(until === undefined ? {} : { until }),
    ...(kinds === undefined ? {} : { kinds }),
  };
}

async function takeTrace(
  scope: ActScope,
  id: Uuid,
): Promise<TraceRecord | { readonly refusals: readonly Refusal[] }> {
  await takeSubjects(scope, "trace", [id]);
  const trace = foldTrace(id, entriesOf(scope, "trace", id));
  return trace ?? { refusals: [{ code: "unknown-subject", subject: id, what: "trace" }] };
}

/** Which pieces that were recorded as not found somebody saw since. */
function sightings({ tx }: ActScope, { outcomes }: TraceRecord): Promise<ReadonlyMap<PieceId, Date>> {
  const missing = outcomes.filter(({ outcome }) => outcome === "not found");
  return seenAfter(
    tx,
    missing.map(({ piece, at }) => ({ piece, at: new Date(at) })),
  );
}

async function walked(
  scope: ActScope,
  { name, isDrill, asked }: Omit<KeepTrace, "id">,
  now: number,
): Promise<TraceFacts | { readonly refusals: readonly Refusal[] }> {
  const began = Date.now();
  const record = await traceRecord(scope.tx, asked, now);
  if (!record) return { refusals: [{ code: "nothing-to-trace" }] };
  const { roots, from, to, position, walk } = record;
  return {
    ...{ ...asked, name, isDrill, roots, from, to, position },
    read: { pieces: walk.read.pieces as PieceId[], holders: walk.read.holders as Uuid[] },
    contacts: walk.contacts.map(({ piece, path }) => ({
      piece: piece as PieceId,
      hops: path.hops,
      at: path.arrival as typeof from,
    })),
    tookMs: Date.now() - began,
  };
}
