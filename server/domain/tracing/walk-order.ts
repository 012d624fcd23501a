import type { Nodes } from "./cut-episodes.ts";
import { groupInOrder, orderByTime } from "./order-by-time.ts";
import type { TraceDirection } from "./trace-view.ts";

/**
 * The nodes as a walk meets them. Backward is the same walk with time reversed: each time is negated, begin and end
 * change places. Which episodes meet which epochs stays as it is, and so does what a cleaning lies between.
 */
export interface WalkOrder {
  readonly isBackward: boolean;
  readonly begin: Float64Array;
  readonly end: Float64Array;
  readonly epochBegin: Float64Array;
  readonly epochEnd: Float64Array;
  /** Episodes by the epoch that they meet, in order of `begin`. */
  readonly memberStarts: Int32Array;
  readonly members: Int32Array;
  /** The greatest `end` of the epoch's members up to this one: where a walk from behind may stop. */
  readonly greatestEnd: Float64Array;
}

/** Puts episodes and epochs in the order of a walk. */
export function orderForWalk({ episodes, epochs }: Nodes, direction: TraceDirection): WalkOrder {
  const isBackward = direction === "backward";
  const begin = isBackward ? episodes.to.subarray(0, episodes.count).map(negated) : episodes.from;
  const end = isBackward ? episodes.from.subarray(0, episodes.count).map(negated) : episodes.to;
  const order = orderByTime(begin.subarray(0, episodes.count));
  let size = 0;
  for (let episode = 0; episode < episodes.count; episode++) {
    const first = episodes.firstEpoch[episode] as number;
    if (first >= 0) size += (episodes.lastEpoch[episode] as number) - first + 1;
  }
  const [member, epochOf] = [new Int32Array(size), new Int32Array(size)];
  let next = 0;
  for (let index = 0; index < order.length; index++) {
    const episode = order[index] as number;
    const first = episodes.firstEpoch[episode] as number;
    if (first < 0) continue;
    for (let epoch = first; epoch <= (episodes.lastEpoch[episode] as number); epoch++) {
      member[next] = episode;
      epochOf[next++] = epoch;
    }
  }
  const grouped = groupInOrder(
    Int32Array.from({ length: size }, (_, index) => index),
    epochOf,
    epochs.count,
  );
  const members = grouped.items.map((index) => member[index] as number);
  const greatestEnd = new Float64Array(size);
  for (let epoch = 0; epoch < epochs.count; epoch++) {
    let greatest = Number.NEGATIVE_INFINITY;
    for (let at = grouped.starts[epoch] as number; at < (grouped.starts[epoch + 1] as number); at++) {
      greatest = Math.max(greatest, end[members[at] as number] as number);
      greatestEnd[at] = greatest;
    }
  }
  return {
    isBackward,
    begin,
    end,
    epochBegin: isBackward ? epochs.to.map(negated) : epochs.from,
    epochEnd: isBackward ? epochs.from.map(negated) : epochs.to,
    memberStarts: grouped.starts,
    members,
    greatestEnd,
  };
}

/** The opposite of a time; never -0, which is not the same key as 0. */
function negated(time: number): number {
  return 0 - time;
}
