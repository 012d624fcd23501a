import {
  type HistoryCleaning,
  type HistoryHolder,
  type HistoryStay,
  type Moment,
  type NumberedHistory,
  numberHistory,
  type TraceQuestion,
} from "./custody-history.ts";
import { cutEpisodes, type Nodes } from "./cut-episodes.ts";
import { type Contact, contactsOf, findRoots, type NoSuchRoot, walkNodes } from "./trace-history.ts";
import type { Walk } from "./walk-by-steps.ts";

/** A part of the time of a piece or of a holder, both ends included. */
export interface NeededSpan {
  readonly id: string;
  readonly from: Moment;
  readonly to: Moment;
}

/** What a walk must know before it can go on. */
export interface TraceNeed {
  /** All stays and accepted cleanings of these pieces that touch the span, with what is known of the holders. */
  readonly pieces: readonly NeededSpan[];
  /** All stays at these holders that touch the span. */
  readonly holders: readonly NeededSpan[];
}

/** What was read for a need. A stay is known by its key; those of one piece sort by it as they happened. */
export interface TraceFacts {
  readonly answers: TraceNeed;
  readonly stays: readonly (HistoryStay & { readonly key: string })[];
  readonly holders: readonly HistoryHolder[];
  readonly cleanings: readonly HistoryCleaning[];
}

/** How far a walk has come: what was asked, and all that it was told. */
export interface TraceState {
  readonly question: TraceQuestion;
  readonly stays: ReadonlyMap<string, HistoryStay>;
  readonly holders: ReadonlyMap<string, HistoryHolder>;
  readonly cleanings: ReadonlyMap<string, HistoryCleaning>;
  readonly knownPieces: ReadonlyMap<string, NeededSpan>;
  readonly knownHolders: ReadonlyMap<string, NeededSpan>;
}

export type TraceStep =
  | { readonly state: TraceState; readonly need: TraceNeed }
  | { readonly state: TraceState; readonly contacts: readonly Contact[] }
  | { readonly state: TraceState; readonly noStay: readonly NoSuchRoot[] };

const NOTHING: TraceFacts = { answers: { pieces: [], holders: [] }, stays: [], holders: [], cleanings: [] };

/** Begins a walk: the first need is of the roots. */
export function beginTrace(question: TraceQuestion): TraceStep {
  const nothing = { stays: new Map(), holders: new Map(), cleanings: new Map() };
  return step({ question, ...nothing, knownPieces: new Map(), knownHolders: new Map() }, NOTHING);
}

/**
 * Goes on with a walk by what was read for its last need: tells what it needs next, or the contacts. Between two steps it
 * walks anew on all that it knows, stopping at pieces of which it knows one stay only; a walk over what a cut leaves
 * is a thousandth of reading it. Indexes of stays in paths count `state.stays` in its order.
 */
export function step(before: TraceState, facts: TraceFacts): TraceStep {
  const state = withFacts(before, facts);
  const { question } = state;
  const rootSpans = question.roots.map(({ piece, at }) => spanFrom(piece, at, question));
  const unread = rootSpans.filter((span) => !covers(state.knownPieces.get(span.id), span));
  if (unread.length > 0) return { state, need: { pieces: joined(unread), holders: [] } };
  const history = numberHistory({
    stays: [...state.stays.values()],
    holders: [...state.holders.values()],
    cleanings: [...state.cleanings.values()],
  });
  const nodes = cutEpisodes(history.columns, question.carriers);
  const found = findRoots(history, nodes, question);
  if ("noStay" in found) return { state, noStay: found.noStay };
  const stopsAt = Uint8Array.from(history.pieceIds, (piece) => (state.knownPieces.has(piece) ? 0 : 1));
  const walk = walkNodes(nodes, question, found.roots, stopsAt);
  const need = needOf(state, history, nodes, walk);
  if (need.pieces.length + need.holders.length > 0) return { state, need };
  return { state, contacts: contactsOf(history, nodes, question, walk) };
}

function needOf(state: TraceState, history: NumberedHistory, nodes: Nodes, walk: Walk): TraceNeed {
  const { question } = state;
  const isBackward = question.direction === "backward";
  const most = question.hops ?? Number.POSITIVE_INFINITY;
  const { labels } = walk;
  const [pieces, holders]: [NeededSpan[], NeededSpan[]] = [[], []];
  for (let label = 0; label < labels.node.length; label++) {
    const node = labels.node[label] as number;
    const time = labels.at[label] as number;
    const at = isBackward ? 0 - time : time;
    // A piece reached by the last step is on the list, and not gone on from.
    if (node >= 0 && (labels.hops[label] as number) < most) {
      const piece = history.pieceIds[nodes.episodes.piece[node] as number] as string;
      const span = spanFrom(piece, at, question);
      if (!covers(state.knownPieces.get(piece), span)) pieces.push(span);
    }
    if (node < 0) {
      const epoch = -1 - node;
      const holder = history.holderIds[nodes.epochs.holder[epoch] as number] as string;
      const whole = spanFrom(holder, at, question);
      const span = isBackward
        ? { ...whole, from: Math.max(whole.from, nodes.epochs.from[epoch] as number) }
        : { ...whole, to: Math.min(whole.to, nodes.epochs.to[epoch] as number) };
      if (!covers(state.knownHolders.get(holder), span)) holders.push(span);
    }
  }
  return { pieces: joined(pieces), holders: joined(holders) };
}

/** The time of a piece or holder that matters once it is reached: from then to the end of the window. */
function spanFrom(id: string, at: Moment, { direction, until }: TraceQuestion): NeededSpan {
  return direction === "backward"
    ? { id, from: until ?? Number.NEGATIVE_INFINITY, to: at }
    : { id, from: at, to: until ?? Number.POSITIVE_INFINITY };
}

function covers(known: NeededSpan | undefined, span: NeededSpan): boolean {
  return known !== undefined && known.from <= span.from && known.to >= span.to;
}

/** One span an id, that holds all of its spans. */
function joined(spans: readonly NeededSpan[]): readonly NeededSpan[] {
  const byId = new Map<string, NeededSpan>();
  for (const span of spans) byId.set(span.id, join(byId.get(span.id), span));
  return [...byId.values()];
}

function join(one: NeededSpan | undefined, other: NeededSpan): NeededSpan {
  if (!one) return other;
  return { id: one.id, from: Math.min(one.from, other.from), to: Math.max(one.to, other.to) };
}

function withFacts(state: TraceState, facts: TraceFacts): TraceState {
  const read = new Map(state.stays);
  for (const { key, ...stay } of facts.stays) read.set(key, stay);
  // By key, so that stays of one piece at one moment follow each other as they are on record.
  const stays = new Map([...read].sort(([one], [other]) => (one < other ? -1 : 1)));
  const holders = new Map(state.holders);
  for (const holder of facts.holders) {
    const known = holders.get(holder.id)?.cleanings ?? [];
    holders.set(holder.id, { ...holder, cleanings: [...new Set([...known, ...holder.cleanings])] });
  }
  const cleanings = new Map(state.cleanings);
  for (const cleaning of facts.cleanings) cleanings.set(`${cleaning.at} ${cleaning.piece}`, cleaning);
  const [knownPieces, knownHolders] = [new Map(state.knownPieces), new Map(state.knownHolders)];
  for (const span of facts.answers.pieces) knownPieces.set(span.id, join(knownPieces.get(span.id), span));
  for (const span of facts.answers.holders) knownHolders.set(span.id, join(knownHolders.get(span.id), span));
  return { question: state.question, stays, holders, cleanings, knownPieces, knownHolders };
}
