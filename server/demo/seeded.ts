import type { Uuid } from "../domain/ids.ts";
import { uuidV7 } from "../ledger/uuid-v7.ts";

/** Chance that is the same in every run: a small generator of 32 bits (mulberry32). Not for secrets. */
export interface Chance {
  /** A whole number from 0 up to, not including, `below`. */
  below(below: number): number;
  pick<Value>(from: readonly Value[]): Value;
  isLucky(share: number): boolean;
  /** An id whose time is the given moment. */
  id<Id extends Uuid>(atMs: number): Id;
}

export function seededChance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (mixed ^ (mixed >>> 14)) >>> 0;
  };
  const below = (limit: number) => next() % limit;
  return {
    below,
    pick: (from) => {
      const value = from[below(from.length)];
      if (value === undefined) throw new Error("There is nothing to pick from.");
      return value;
    },
    isLucky: (share) => next() / 2 ** 32 < share,
    id: (atMs) => uuidV7(atMs, Buffer.from(Array.from({ length: 10 }, () => below(256)))) as never,
  };
}
