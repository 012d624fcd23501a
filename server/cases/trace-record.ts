import type { PieceId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import type { TraceQuestion } from "../domain/tracing/custody-history.ts";
import type { TraceAsked, TraceFrom } from "../domain/tracing/kept-trace.ts";
import type { Db, Tx } from "../store/db.ts";
import { contaminantRules } from "../store/load-rulebook.ts";
import {
  firstOnRecord,
  kindsOfEvent,
  piecesAtHolder,
  piecesOfLoads,
  piecesThatMet,
  positionNow,
  type RootRow,
} from "../store/read-for-trace.ts";
import { type Accepts, acceptsFor, type RecordWalk, walkRecord } from "./walk-record.ts";

/** How far a trace looks when nobody says otherwise. Source: design, section 7: without cuts chance reaches half of all. */
const HORIZON_MS = 30 * 86_400_000;

/** A trace of the record as it stands. */
export interface TracedRecord {
  readonly asked: TraceAsked;
  readonly roots: readonly { readonly piece: PieceId; readonly at: Instant }[];
  readonly from: Instant;
  readonly to: Instant;
  readonly walk: RecordWalk;
  readonly accepts: Accepts;
  readonly position: number;
}

/**
 * Traces the record: finds what it starts from and walks from there, within the cuts. Undefined where the record has no
 * piece to start from. A piece that came on record later than the start is traced from then on.
 */
export async function traceRecord(
  tx: Db | Tx,
  asked: TraceAsked,
  now: number,
  kept?: TracedRecord["roots"],
): Promise<TracedRecord | undefined> {
  const position = await positionNow(tx);
  const isBackward = asked.direction === "backward";
  const roots = kept ?? (await rootsOf(tx, asked, now));
  if (roots.length === 0) return undefined;
  const times = roots.map(({ at }) => at);
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const until = isBackward
    ? Math.min(asked.until ?? last - HORIZON_MS, first)
    : Math.max(Math.min(asked.until ?? first + HORIZON_MS, now), last);
  const kinds =
    asked.start.kind === "event" ? await kindsOfEvent(tx, asked.start.event) : (asked.kinds ?? []);
  const accepts = acceptsFor(kinds, await contaminantRules(tx));
  const question: TraceQuestion = {
    roots,
    direction: asked.direction,
    hops: asked.hops,
    until,
    carriers: asked.carriers,
  };
  const walk = await walkRecord(tx, question, accepts);
  if (!walk) return undefined;
  const [from, to] = isBackward ? [until, last] : [first, until];
  return { asked, roots, from: from as Instant, to: to as Instant, walk, accepts, position };
}

/** Finds the pieces that a trace starts from, each with its moment: forward its first there, backward its last. */
async function rootsOf(
  tx: Db | Tx,
  { start, direction }: TraceAsked,
  now: number,
): Promise<TracedRecord["roots"]> {
  const rows = await rootRows(tx, start, now);
  const first = await firstOnRecord(
    tx,
    rows.map(({ piece }) => piece),
  );
  return rows.flatMap(({ piece, from_ms, to_ms }) => {
    const since = first.get(piece);
    if (since === undefined) return [];
    const at = direction === "forward" ? Math.max(from_ms, since) : to_ms;
    return at < since || at > now ? [] : [{ piece: piece as PieceId, at: at as Instant }];
  });
}

function rootRows(tx: Db | Tx, start: TraceFrom, now: number): Promise<readonly RootRow[]> {
  switch (start.kind) {
    case "pieces": {
      const at = start.at;
      return Promise.resolve(start.pieces.map((piece) => ({ piece, from_ms: at, to_ms: at })));
    }
    case "load":
      return piecesOfLoads(tx, { load: start.load }, now);
    case "machine":
      return piecesOfLoads(tx, start, now);
    case "event":
      return piecesThatMet(tx, start.event);
    case "member":
      return piecesAtHolder(tx, { ...start, id: start.member });
    case "place":
      return piecesAtHolder(tx, { ...start, id: start.place });
    case "provider":
      return piecesAtHolder(tx, { ...start, id: start.provider });
    default:
      return start satisfies never;
  }
}
