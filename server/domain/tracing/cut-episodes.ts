import type { HistoryColumns, Moment } from "./custody-history.ts";
import { groupInOrder, orderByTime } from "./order-by-time.ts";
import type { Carries } from "./trace-view.ts";

/** Episodes: stays, cut at the accepted cleanings of their piece. Those of a piece stand together, oldest first. */
export interface Episodes {
  readonly count: number;
  readonly piece: Int32Array;
  readonly stay: Int32Array;
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** 1 where a label passes to the next episode: of the same piece, with no cleaning between. */
  readonly passesOn: Uint8Array;
  /** Of the piece by number: its first episode; one more at the end. */
  readonly firstOf: Int32Array;
  /** First and last epoch of its holder that it meets; -1 where the holder is not followed. */
  readonly firstEpoch: Int32Array;
  readonly lastEpoch: Int32Array;
}

/** Epochs of the followed holders: the time from one cleaning of the holder to the next, [from, to). */
export interface Epochs {
  readonly count: number;
  readonly holder: Int32Array;
  readonly from: Float64Array;
  readonly to: Float64Array;
}

export interface Nodes {
  readonly episodes: Episodes;
  readonly epochs: Epochs;
}

/**
 * Cuts stays into episodes and followed holders into epochs, and tells which meet.
 *
 * At one instant departures come first, then the cleaning, then arrivals. So an episode [a, b] meets an epoch [s, e)
 * when a < e and (b > s or a = b = s): one that ends as the holder is cleaned was there before, one without length at
 * that instant comes after. Likewise a cleaning of the piece at the end of a stay lies between it and the next one,
 * and at a stay without length before it.
 */
export function cutEpisodes(columns: HistoryColumns, carriers: readonly Carries[]): Nodes {
  const { epochs, firstEpochOf } = cutEpochs(columns, carriers);
  const order = staysInOrder(columns);
  const cleanings = groupInOrder(
    orderByTime(columns.cleaningAt),
    columns.cleaningPiece,
    Math.max(columns.pieces, 1),
  );
  const most = order.items.length + columns.cleaningAt.length;
  const [piece, stay] = [new Int32Array(most), new Int32Array(most)];
  const [from, to] = [new Float64Array(most), new Float64Array(most)];
  const passesOn = new Uint8Array(most);
  const firstOf = new Int32Array(columns.pieces + 1);
  let count = 0;
  for (let owner = 0; owner < columns.pieces; owner++) {
    firstOf[owner] = count;
    let next = cleanings.starts[owner] as number;
    const end = cleanings.starts[owner + 1] as number;
    const cleaningAt = () =>
      next < end ? (columns.cleaningAt[cleanings.items[next] as number] as number) : Number.POSITIVE_INFINITY;
    for (let at = order.starts[owner] as number; at < (order.starts[owner + 1] as number); at++) {
      const index = order.items[at] as number;
      const [start, stop] = [columns.from[index] as number, columns.to[index] as number];
      let isCleaned = false;
      // Cleanings from the end of the stay before up to the start of this one.
      for (; cleaningAt() <= start; next++) isCleaned = true;
      if (count > (firstOf[owner] as number) && !isCleaned) passesOn[count - 1] = 1;
      let cut = start;
      for (; cleaningAt() < stop; next++) {
        if (cleaningAt() === cut) continue;
        piece[count] = owner;
        stay[count] = index;
        from[count] = cut;
        cut = cleaningAt();
        to[count++] = cut;
      }
      piece[count] = owner;
      stay[count] = index;
      from[count] = cut;
      to[count++] = stop;
    }
  }
  firstOf[columns.pieces] = count;
  const [firstEpoch, lastEpoch] = [new Int32Array(count).fill(-1), new Int32Array(count).fill(-1)];
  for (let episode = 0; episode < count; episode++) {
    const holder = columns.holder[stay[episode] as number] as number;
    const [base, beyond] = [firstEpochOf[holder] as number, firstEpochOf[holder + 1] as number];
    if (base === beyond) continue;
    const first = epochAt(epochs.from, base, beyond, from[episode] as number);
    let last = first;
    while (last + 1 < beyond && (to[episode] as number) > (epochs.from[last + 1] as number)) last++;
    firstEpoch[episode] = first;
    lastEpoch[episode] = last;
  }
  const episodes = { count, piece, stay, from, to, passesOn, firstOf, firstEpoch, lastEpoch };
  return { episodes, epochs };
}

/** The last epoch of a holder that has begun at a moment: the one that [s, e) holds. */
function epochAt(starts: Float64Array, base: number, beyond: number, at: Moment): number {
  let [low, high] = [base, beyond - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] as number) <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}

function cutEpochs(columns: HistoryColumns, carriers: readonly Carries[]) {
  const firstEpochOf = new Int32Array(columns.carries.length + 1);
  const [holder, from, to]: [number[], number[], number[]] = [[], [], []];
  columns.carries.forEach((carries, index) => {
    firstEpochOf[index] = from.length;
    if (carries === "apart" || !carriers.includes(carries)) return;
    const cuts = [...new Set(columns.holderCleanings[index])].sort((a, b) => a - b);
    for (const [at, start] of [Number.NEGATIVE_INFINITY, ...cuts].entries()) {
      holder.push(index);
      from.push(start);
      to.push(cuts[at] ?? Number.POSITIVE_INFINITY);
    }
  });
  firstEpochOf[columns.carries.length] = from.length;
  const epochs: Epochs = {
    count: from.length,
    holder: Int32Array.from(holder),
    from: Float64Array.from(from),
    to: Float64Array.from(to),
  };
  return { epochs, firstEpochOf };
}

/** Stays by piece, oldest first; of two that begin together the one without length, then as they were given. */
function staysInOrder(columns: HistoryColumns) {
  const grouped = groupInOrder(orderByTime(columns.from), columns.piece, Math.max(columns.pieces, 1));
  const { items } = grouped;
  const hasLength = (stay: number) => (columns.to[stay] as number) > (columns.from[stay] as number);
  for (let index = 1; index < items.length; index++) {
    const item = items[index] as number;
    if (hasLength(item)) continue;
    let place = index;
    for (; place > 0; place--) {
      const before = items[place - 1] as number;
      const isAlike =
        columns.piece[before] === columns.piece[item] && columns.from[before] === columns.from[item];
      if (!isAlike || !hasLength(before)) break;
      items[place] = before;
    }
    items[place] = item;
  }
  return grouped;
}
