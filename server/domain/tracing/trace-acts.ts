import type { Evidence } from "../evidence.ts";
import type { AccountId, PieceId, Uuid } from "../ids.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { Role } from "../register/account.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { TraceEntry, TraceRecord } from "./kept-trace.ts";
import type { OutcomeWord } from "./trace-view.ts";

/** Who does it and when. */
interface Doing {
  readonly by: AccountId;
  readonly role: Role;
  readonly at: Instant;
}
type Decision = Decided<readonly NewEntry[]>;

/** Says what became of pieces on a trace's list. */
export interface RecordOutcome {
  readonly trace: Uuid;
  readonly pieces: readonly {
    readonly piece: PieceId;
    readonly evidence: "scanned" | "typed" | "described";
  }[];
  readonly outcome: OutcomeWord;
  readonly reason?: string;
}

/**
 * Decides an outcome. Refuses pieces that are not on the list, a trace that is closed, "cleared" and "not found" without a
 * reason, "not found" by another than the program manager, and what must be seen but was only described.
 */
export function recordOutcome(trace: TraceRecord, command: RecordOutcome, doing: Doing): Decision {
  const { outcome, reason } = command;
  const listed = new Set(trace.facts.contacts.map(({ piece }) => piece));
  const refusals: Refusal[] = [];
  if (trace.closedAt !== undefined) refusals.push({ code: "closed", subject: trace.id, what: "trace" });
  for (const { piece } of command.pieces) {
    if (!listed.has(piece)) refusals.push({ code: "not-on-the-list", subject: piece, trace: trace.id });
  }
  if ((outcome === "cleared" || outcome === "not found") && !reason) {
    refusals.push({ code: "reason-needed", outcome });
  }
  if (outcome === "not found" && doing.role !== "program manager") {
    refusals.push({ code: "role", needs: ["program manager"] });
  }
  if (refusals.length > 0) return { refusals };
  const texts = reason ? { reason } : undefined;
  return {
    entries: command.pieces.map(({ piece, evidence }) =>
      onTrace(
        trace.id,
        {
          kind: "OutcomeRecorded",
          at: doing.at,
          by: doing.by,
          evidence: evidence as Evidence,
          piece,
          outcome,
        },
        texts,
      ),
    ),
  };
}

/** Decides that the work on a trace is done. Refuses while a possible contact has no outcome, or one that no longer holds. */
export function closeTrace(
  trace: TraceRecord,
  seenSince: ReadonlySet<PieceId>,
  { by, at }: Pick<Doing, "by" | "at">,
): Decision {
  if (trace.closedAt !== undefined)
    return { refusals: [{ code: "closed", subject: trace.id, what: "trace" }] };
  const settled = new Set(
    trace.outcomes
      .filter((one) => one.outcome !== "not found" || !seenSince.has(one.piece))
      .map(({ piece }) => piece),
  );
  const open = trace.facts.contacts.filter(({ piece }) => !settled.has(piece));
  if (open.length > 0)
    return { refusals: [{ code: "without-outcome", subject: trace.id, pieces: open.length }] };
  return { entries: [onTrace(trace.id, { kind: "TraceClosed", at, by })] };
}

/** Decides that a closed trace is worked on again. */
export function reopenTrace(
  trace: TraceRecord,
  { by, at, reason }: Pick<Doing, "by" | "at"> & { readonly reason?: string },
): Decision {
  if (trace.closedAt === undefined) return { refusals: [{ code: "nothing-to-do" }] };
  return { entries: [onTrace(trace.id, { kind: "TraceReopened", at, by }, reason ? { reason } : undefined)] };
}

/** Writes an entry on a trace. */
export function onTrace(id: Uuid, entry: TraceEntry, texts?: Readonly<Record<string, string>>): NewEntry {
  return { subjectKind: "trace", subject: id, entry, ...(texts ? { texts } : {}) };
}
