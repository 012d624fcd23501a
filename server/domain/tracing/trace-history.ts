import type { CustodyHistory, Moment, NumberedHistory, TraceQuestion } from "./custody-history.ts";
import { numberHistory } from "./custody-history.ts";
import { cutEpisodes, type Nodes } from "./cut-episodes.ts";
import { type Walk, walkBySteps } from "./walk-by-steps.ts";
import { orderForWalk } from "./walk-order.ts";

/** One step: from one piece by way of one holder to another. Always told in the order of time. */
export interface Leg {
  readonly from: string;
  readonly to: string;
  readonly holder: string;
  /** Indexes of the two stays in the history. */
  readonly fromStay: number;
  readonly toStay: number;
  /** When the first touched the holder, and when the second was reached through it. Backward: the latest such moments. */
  readonly left: Moment;
  readonly at: Moment;
  /** The epoch of the holder; without its ends from the beginning, or until now. */
  readonly epochFrom?: Moment;
  readonly epochTo?: Moment;
}

export interface Path {
  readonly hops: number;
  /** Forward the first moment at which the piece may have been reached; backward the last one that leads to a root. */
  readonly arrival: Moment;
  /** The root that it leads from, or backward to. */
  readonly root: string;
  readonly rootAt: Moment;
  readonly legs: readonly Leg[];
}

/** A piece that may have been reached, other than a root. */
export interface Contact {
  readonly piece: string;
  /** The path with the fewest steps, the earliest of these (backward the latest). */
  readonly path: Path;
  /** A path that arrives earlier (backward leaves later), by more steps. */
  readonly earlier?: Path;
}

/** A root that has no stay at its moment. */
export interface NoSuchRoot {
  readonly piece: string;
  readonly at: Moment;
}

export interface RootEpisode {
  readonly episode: number;
  readonly at: Moment;
}

export type Traced = { readonly contacts: readonly Contact[] } | { readonly noStay: readonly NoSuchRoot[] };

/**
 * Traces a history: every piece that the roots may have reached, or that may have reached them, by steps, arrival and
 * piece. Roots that have no stay at their moment are all named. An end of the window before the roots leaves nothing.
 */
export function traceHistory(history: CustodyHistory, question: TraceQuestion): Traced {
  return traceNumbered(numberHistory(history), question);
}

/** Traces a history that is numbered already. */
export function traceNumbered(history: NumberedHistory, question: TraceQuestion): Traced {
  const nodes = cutEpisodes(history.columns, question.carriers);
  const found = findRoots(history, nodes, question);
  if ("noStay" in found) return found;
  return { contacts: contactsOf(history, nodes, question, walkNodes(nodes, question, found.roots)) };
}

/** Walks nodes from episodes of the roots. */
export function walkNodes(
  nodes: Nodes,
  question: TraceQuestion,
  roots: readonly RootEpisode[],
  stopsAt?: Uint8Array,
): Walk {
  const isBackward = question.direction === "backward";
  const until = question.until ?? (isBackward ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY);
  const order = orderForWalk(nodes, question.direction);
  const inOrder = roots.map(({ episode, at }) => ({ episode, at: isBackward ? 0 - at : at }));
  return walkBySteps(nodes, order, inOrder, {
    hops: question.hops ?? Number.POSITIVE_INFINITY,
    until: isBackward ? 0 - until : until,
    ...(stopsAt ? { stopsAt } : {}),
  });
}

/** Finds the episode of each root: the last that has begun at its moment; one that ends then is still there. */
export function findRoots(
  { pieceNumber }: NumberedHistory,
  { episodes }: Nodes,
  { roots }: TraceQuestion,
): { readonly noStay: readonly NoSuchRoot[] } | { readonly roots: readonly RootEpisode[] } {
  const noStay: NoSuchRoot[] = [];
  const found: RootEpisode[] = [];
  for (const { piece, at } of roots) {
    const owner = pieceNumber.get(piece);
    let episode = -1;
    if (owner !== undefined) {
      episode = (episodes.firstOf[owner + 1] as number) - 1;
      const first = episodes.firstOf[owner] as number;
      while (episode >= first && (episodes.from[episode] as number) > at) episode--;
      if (episode < first || (episodes.to[episode] as number) < at) episode = -1;
    }
    if (episode < 0) noStay.push({ piece, at });
    else found.push({ episode, at });
  }
  return noStay.length > 0 ? { noStay } : { roots: found };
}

/** Reads the contacts off a walk. */
export function contactsOf(
  history: NumberedHistory,
  nodes: Nodes,
  question: TraceQuestion,
  walk: Walk,
): readonly Contact[] {
  const roots = new Set(question.roots.map(({ piece }) => piece));
  const contacts: Contact[] = [];
  const isBackward = question.direction === "backward";
  for (const [owner, piece] of history.pieceIds.entries()) {
    const own = walk.ranked[owner] ?? -1;
    if (own < 0 || roots.has(piece)) continue;
    const path = pathTo(history, nodes, walk, own, isBackward);
    const earliest = walk.earliest[owner] ?? own;
    const isEarlier = (walk.labels.at[earliest] ?? 0) < (walk.labels.at[own] ?? 0);
    contacts.push({
      piece,
      path,
      ...(isEarlier ? { earlier: pathTo(history, nodes, walk, earliest, isBackward) } : {}),
    });
  }
  return contacts.sort(
    (one, other) =>
      one.path.hops - other.path.hops ||
      one.path.arrival - other.path.arrival ||
      (one.piece < other.piece ? -1 : 1),
  );
}

/** Follows a label back to its root. */
function pathTo(
  { pieceIds, holderIds }: NumberedHistory,
  { episodes, epochs }: Nodes,
  { labels }: Walk,
  last: number,
  isBackward: boolean,
): Path {
  const told = (time: number) => (isBackward ? 0 - time : time);
  const nodeOf = (label: number) => labels.node[label] as number;
  const parentOf = (label: number) => labels.parent[label] as number;
  const nameOf = (episode: number) => pieceIds[episodes.piece[episode] as number] as string;
  const legs: Leg[] = [];
  let label = last;
  while (parentOf(label) >= 0) {
    const by = parentOf(label);
    if (nodeOf(by) >= 0) {
      label = by;
      continue;
    }
    const epoch = -1 - nodeOf(by);
    const before = parentOf(by);
    const [near, far] = [nodeOf(before), nodeOf(label)];
    const [first, second] = isBackward ? [far, near] : [near, far];
    const [touched, reached] = [told(labels.at[by] as number), told(labels.at[label] as number)];
    const [epochFrom, epochTo] = [epochs.from[epoch] as number, epochs.to[epoch] as number];
    legs.push({
      from: nameOf(first),
      to: nameOf(second),
      holder: holderIds[epochs.holder[epoch] as number] as string,
      fromStay: episodes.stay[first] as number,
      toStay: episodes.stay[second] as number,
      left: isBackward ? reached : touched,
      at: isBackward ? touched : reached,
      ...(epochFrom > Number.NEGATIVE_INFINITY ? { epochFrom } : {}),
      ...(epochTo < Number.POSITIVE_INFINITY ? { epochTo } : {}),
    });
    label = before;
  }
  return {
    hops: labels.hops[last] as number,
    arrival: told(labels.at[last] as number),
    root: nameOf(nodeOf(label)),
    rootAt: told(labels.at[label] as number),
    legs: isBackward ? legs : legs.reverse(),
  };
}
