import { acceptsCleaning, type ContaminantRule, ruleOf } from "../domain/contamination/contaminant-rule.ts";
import { type Evidence, isSeen } from "../domain/evidence.ts";
import type { HowCleaned } from "../domain/pieces/piece-entries.ts";
import type { HistoryHolder, HistoryStay, Moment, TraceQuestion } from "../domain/tracing/custody-history.ts";
import type { Contact } from "../domain/tracing/trace-history.ts";
import {
  beginTrace,
  step,
  type TraceFacts,
  type TraceNeed,
  type TraceStep,
} from "../domain/tracing/trace-step.ts";
import type { Db, Tx } from "../store/db.ts";
import {
  readHoldersForTrace,
  readPiecesForTrace,
  type TracePlaceRow,
  type TraceStayRow,
} from "../store/read-for-trace.ts";

/** A stay of the history with what the record says of it. */
export interface RecordStay extends HistoryStay {
  readonly key: string;
  readonly evidence: Evidence;
  /** The entry of the piece that began it. */
  readonly version: number;
  readonly holderKind: string;
  readonly holderId?: string;
}

/** What a walk over the record found, and what it read for it. */
export interface RecordWalk {
  readonly contacts: readonly Contact[];
  /** By index of the paths' stays. */
  readonly stays: readonly RecordStay[];
  readonly places: ReadonlyMap<string, TracePlaceRow>;
  readonly read: { readonly pieces: readonly string[]; readonly holders: readonly string[] };
  readonly rowsRead: number;
  readonly rounds: number;
}

/** Tells whether a cleaning ends what a piece carried, by the kinds of contaminant that a trace is about. */
export type Accepts = (how: HowCleaned, evidence: Evidence) => boolean;

/**
 * Makes the rule by which cleanings end what a piece carries: all kinds must accept it, and somebody must have seen it.
 * Where no kind is stated, none does: what is not known to end it does not.
 */
export function acceptsFor(kinds: readonly string[], rules: readonly ContaminantRule[]): Accepts {
  const asked = kinds.map((code) => ruleOf(rules, code));
  return (how, evidence) =>
    isSeen(evidence) && asked.length > 0 && asked.every((rule) => acceptsCleaning(rule, how) === "yes");
}

/** Tells whether a stay rests on what nobody saw of the piece; what went with its set was seen with it. */
export function isPresumed(evidence: Evidence): boolean {
  return !isSeen(evidence) && evidence !== "with its set";
}

/** Gives the part of a place, a member, a load, … in the history of a walk. */
export function laneOf(kind: string, id: string | null | undefined): string {
  return id ? `${kind}:${id}` : kind;
}

/**
 * Cuts a stay of the record where a load began and ended: during the load all its pieces touch, and for the rest the
 * piece lies at the machine's place.
 */
export function asHistory(row: TraceStayRow): readonly RecordStay[] {
  const fact = {
    piece: row.piece,
    evidence: row.evidence,
    version: row.from_version,
    holderKind: row.holder_kind,
    ...(row.holder ? { holderId: row.holder } : {}),
  };
  const key = (part: number) => `${row.piece} ${String(row.n).padStart(7, "0")} ${part}`;
  const to = row.to_ms ?? Number.POSITIVE_INFINITY;
  const stay = (part: number, holder: string, from: Moment, until: Moment): RecordStay => {
    const end = Number.isFinite(until) ? { to: until } : {};
    return { ...fact, key: key(part), holder, from, ...end };
  };
  const place = laneOf(row.holder_kind, row.holder);
  if (row.load === null || row.load_from === null) return [stay(0, place, row.from_ms, to)];
  const begins = Math.min(Math.max(row.from_ms, row.load_from), to);
  const ends = Math.max(begins, Math.min(to, row.load_to ?? Number.POSITIVE_INFINITY));
  return [
    ...(begins > row.from_ms ? [stay(0, place, row.from_ms, begins)] : []),
    stay(1, `load:${row.load}`, begins, ends),
    ...(ends < to ? [stay(2, place, ends, to)] : []),
  ];
}

/** Walks the record from the roots: at most two questions a round, on one moment of the database. Undefined: a root has no stay. */
export async function walkRecord(
  tx: Db | Tx,
  question: TraceQuestion,
  accepts: Accepts,
): Promise<RecordWalk | undefined> {
  const stays = new Map<string, RecordStay>();
  const places = new Map<string, TracePlaceRow>();
  let [rowsRead, rounds] = [0, 0];
  let now: TraceStep = beginTrace(question);
  while ("need" in now) {
    const facts = await answer(tx, now.need, accepts, places);
    for (const stay of facts.stays) stays.set(stay.key, stay as RecordStay);
    rowsRead += facts.rows;
    rounds += 1;
    now = step(now.state, facts);
  }
  if ("noStay" in now) return undefined;
  return {
    contacts: now.contacts,
    stays: [...now.state.stays.keys()].map((key) => stays.get(key) as RecordStay),
    places,
    read: {
      pieces: [...new Set([...stays.values()].map(({ piece }) => piece))],
      holders: [...now.state.knownHolders.keys()].map((id) => id.slice(id.indexOf(":") + 1)),
    },
    rowsRead,
    rounds,
  };
}

async function answer(
  tx: Db | Tx,
  need: TraceNeed,
  accepts: Accepts,
  places: Map<string, TracePlaceRow>,
): Promise<TraceFacts & { readonly rows: number }> {
  const spans = (kind: string) =>
    need.holders.flatMap((span) =>
      span.id.startsWith(kind) ? [{ ...span, id: span.id.slice(kind.length) }] : [],
    );
  const own = need.pieces.length > 0 ? await readPiecesForTrace(tx, need.pieces) : undefined;
  const others =
    need.holders.length > 0 ? await readHoldersForTrace(tx, spans("place:"), spans("load:")) : [];
  for (const place of own?.places ?? []) places.set(place.id, place);
  const rows = [...(own?.stays ?? []), ...others];
  return {
    answers: need,
    stays: rows.flatMap(asHistory),
    holders: holdersOf(own?.stays ?? [], places),
    cleanings: (own?.cleanings ?? []).flatMap(({ piece, at_ms, how, evidence }) =>
      accepts(how, evidence) ? [{ piece, at: at_ms }] : [],
    ),
    rows: rows.length + (own?.cleanings.length ?? 0),
  };
}

/** How things touch where these stays were. What is neither a place nor a load keeps its pieces apart. */
function holdersOf(
  rows: readonly TraceStayRow[],
  places: ReadonlyMap<string, TracePlaceRow>,
): HistoryHolder[] {
  const holders = new Map<string, HistoryHolder>();
  for (const { holder_kind, holder, load } of rows) {
    if (load) holders.set(`load:${load}`, { id: `load:${load}`, carries: "closed", cleanings: [] });
    const id = laneOf(holder_kind, holder);
    const place = holder_kind === "place" && holder ? places.get(holder) : undefined;
    holders.set(id, { id, carries: place?.carries ?? "apart", cleanings: place?.cleaned ?? [] });
  }
  return [...holders.values()];
}
