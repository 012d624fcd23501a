import type { Moment } from "./custody-history.ts";
import type { Nodes } from "./cut-episodes.ts";
import type { WalkOrder } from "./walk-order.ts";

/** One way by which a node may have been reached, in the order in which the walk found it. */
export interface Labels {
  /** The episode; of an epoch -1 - epoch. */
  readonly node: number[];
  /** In the order of the walk: backward negated. */
  readonly at: number[];
  readonly hops: number[];
  /** The label that it came from; -1 for a root. */
  readonly parent: number[];
}

export interface Walk {
  readonly labels: Labels;
  /** Of a piece by number: its label with the fewest steps, the earliest of these; -1 if it was not reached. */
  readonly ranked: Int32Array;
  /** Of a piece by number: its earliest label, of equal ones that with the fewest steps. */
  readonly earliest: Int32Array;
  /** By epoch: its earliest label, -1 if it was not reached. */
  readonly epochLabel: Int32Array;
}

export interface WalkCuts {
  readonly hops: number;
  /** In the order of the walk; Infinity for no end. */
  readonly until: Moment;
  /** By piece: 1 where the walk stops at it, because not enough of it is known to go on. */
  readonly stopsAt?: Uint8Array;
}

/**
 * Walks from the roots step by step, a step being piece to carrier to piece. After the round of k steps each node bears
 * its earliest arrival by at most k steps, so that its labels over the rounds are exactly the Pareto ones (steps,
 * arrival); a round goes on only from what the round before made earlier.
 *
 * A reached episode reaches the epochs that it meets, at once or when they begin, but not an epoch that ended before:
 * one that ends in the same instant only if the episode ends with it. A reached epoch reaches the episodes that it
 * meets, at once or when they begin, if they have not ended. A label passes to the piece's next episode alone.
 */
export function walkBySteps(
  { episodes, epochs }: Nodes,
  order: WalkOrder,
  roots: readonly { readonly episode: number; readonly at: Moment }[],
  { hops: mostHops, until, stopsAt }: WalkCuts,
): Walk {
  const { begin, end, epochBegin, epochEnd, isBackward } = order;
  const labels: Labels = { node: [], at: [], hops: [], parent: [] };
  const best = new Float64Array(episodes.count).fill(Number.POSITIVE_INFINITY);
  const labelOf = new Int32Array(episodes.count).fill(-1);
  const queuedIn = new Int32Array(episodes.count).fill(-1);
  const epochBest = new Float64Array(epochs.count).fill(Number.POSITIVE_INFINITY);
  const epochBefore = new Float64Array(epochs.count);
  const epochLabel = new Int32Array(epochs.count).fill(-1);
  const touchedIn = new Int32Array(epochs.count).fill(-1);
  const ranked = new Int32Array(episodes.firstOf.length - 1).fill(-1);
  const earliest = new Int32Array(episodes.firstOf.length - 1).fill(-1);
  let frontier: number[] = [];

  const label = (node: number, at: Moment, hops: number, parent: number): number => {
    labels.at.push(at);
    labels.hops.push(hops);
    labels.parent.push(parent);
    return labels.node.push(node) - 1;
  };
  const reach = (episode: number, at: Moment, hops: number, parent: number) => {
    if (at >= (best[episode] as number) || at > until) return;
    best[episode] = at;
    labelOf[episode] = label(episode, at, hops, parent);
    if (queuedIn[episode] === hops) return;
    queuedIn[episode] = hops;
    frontier.push(episode);
  };
  const goesOn = (episode: number) => stopsAt?.[episodes.piece[episode] as number] !== 1;
  /** Passes labels on along each piece; the frontier grows while it is gone through. */
  const passOn = (hops: number) => {
    for (let index = 0; index < frontier.length; index++) {
      const episode = frontier[index] as number;
      const next = isBackward ? episode - 1 : episode + 1;
      const passes = isBackward
        ? next >= 0 && episodes.passesOn[next] === 1
        : episodes.passesOn[episode] === 1;
      if (passes && goesOn(episode)) reach(next, begin[next] as number, hops, labelOf[episode] as number);
    }
  };
  const note = (hops: number) => {
    for (const episode of frontier) {
      const piece = episodes.piece[episode] as number;
      const own = labelOf[episode] as number;
      const [first, soonest] = [ranked[piece] as number, earliest[piece] as number];
      const isFirst = first < 0 || (labels.hops[first] === hops && isSooner(labels, own, first));
      if (isFirst) ranked[piece] = own;
      if (soonest < 0 || isSooner(labels, own, soonest)) earliest[piece] = own;
    }
  };
  const reachEpochs = (round: number): number[] => {
    const touched: number[] = [];
    for (const episode of frontier) {
      const first = episodes.firstEpoch[episode] as number;
      if (first < 0 || !goesOn(episode)) continue;
      const since = best[episode] as number;
      for (let epoch = first; epoch <= (episodes.lastEpoch[episode] as number); epoch++) {
        const at = Math.max(since, epochBegin[epoch] as number);
        const ends = epochEnd[epoch] as number;
        // A backward root is read after what happened at its instant: what then arrived was there with it.
        const isOpen = at < ends || end[episode] === ends || (isBackward && round === 0 && at === ends);
        if (!isOpen || at > until || at >= (epochBest[epoch] as number)) continue;
        if (touchedIn[epoch] !== round) {
          touchedIn[epoch] = round;
          epochBefore[epoch] = epochBest[epoch] as number;
          touched.push(epoch);
        }
        epochBest[epoch] = at;
        epochLabel[epoch] = label(-1 - epoch, at, round, labelOf[episode] as number);
      }
    }
    return touched;
  };
  const reachMembers = (epoch: number, hops: number) => {
    const since = epochBest[epoch] as number;
    const start = order.memberStarts[epoch] as number;
    // Members that begin after an earlier label of this epoch were reached then, as early as can be.
    let at =
      firstNotBefore(order, start, order.memberStarts[epoch + 1] as number, epochBefore[epoch] as number) - 1;
    for (; at >= start && (order.greatestEnd[at] as number) >= since; at--) {
      const episode = order.members[at] as number;
      if ((end[episode] as number) < since) continue;
      const arrival = Math.max(begin[episode] as number, since);
      if (arrival === until && isBackward && isBeforeCleaning(epoch, episode)) continue;
      reach(episode, arrival, hops, epochLabel[epoch] as number);
    }
  };
  /** The end of a backward window is read as a root is: after a cleaning in that instant, for who stays on. */
  const isBeforeCleaning = (epoch: number, episode: number) =>
    epochBegin[epoch] === until && (begin[episode] as number) < until;

  for (const { episode, at } of roots) reach(episode, at, 0, -1);
  for (let round = 0; frontier.length > 0; round++) {
    passOn(round);
    note(round);
    if (round >= mostHops) break;
    const touched = reachEpochs(round);
    frontier = [];
    for (const epoch of touched) reachMembers(epoch, round + 1);
  }
  return { labels, ranked, earliest, epochLabel };
}

function isSooner(labels: Labels, one: number, other: number): boolean {
  return (labels.at[one] as number) < (labels.at[other] as number);
}

/** The first member of an epoch that does not begin before a time. */
function firstNotBefore(order: WalkOrder, start: number, beyond: number, time: Moment): number {
  let [low, high] = [start, beyond];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((order.begin[order.members[middle] as number] as number) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
