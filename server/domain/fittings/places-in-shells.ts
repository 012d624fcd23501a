import type { PieceId } from "../ids.ts";
import type { Refusal } from "../refusal.ts";
import type { Instant } from "../time.ts";

/** The time that one layer is in one shell, half-open; without `to` it lasts. */
export interface TimeInShell {
  readonly layer: PieceId;
  readonly layerKind: string;
  readonly shell: PieceId;
  readonly from: Instant;
  readonly to?: Instant;
}

/**
 * Gives the times in a shell that were not on record before: begun, begun earlier, or lasting longer. What only ends
 * earlier than it did cannot meet another.
 */
export function grownTimes(before: readonly TimeInShell[], after: readonly TimeInShell[]): TimeInShell[] {
  return after.filter((time) => !before.some((known) => isWithin(time, known)));
}

/**
 * Refuses each time in a shell that meets another of a layer of the same kind: one place holds one layer at a time.
 * All reasons at once, each other layer once. A time without length meets nothing.
 */
export function placesTaken(
  grown: readonly TimeInShell[],
  others: readonly TimeInShell[],
): readonly Refusal[] {
  const refusals = new Map<string, Refusal>();
  for (const time of grown) {
    for (const other of others) {
      if (!isSamePlace(time, other) || !isMeeting(time, other)) continue;
      const { layer: subject, shell } = time;
      const ended = other.to === undefined ? {} : { from: other.from, to: other.to };
      const pair = [subject, other.layer].sort().join();
      if (!refusals.has(pair)) {
        refusals.set(pair, { code: "place-in-shell-taken", subject, shell, by: other.layer, ...ended });
      }
    }
  }
  return [...refusals.values()];
}

function isSamePlace(one: TimeInShell, other: TimeInShell): boolean {
  return one.layer !== other.layer && one.shell === other.shell && one.layerKind === other.layerKind;
}

const end = ({ to }: TimeInShell) => to ?? Number.POSITIVE_INFINITY;

function isMeeting(one: TimeInShell, other: TimeInShell): boolean {
  return Math.max(one.from, other.from) < Math.min(end(one), end(other));
}

function isWithin(time: TimeInShell, known: TimeInShell): boolean {
  return time.shell === known.shell && known.from <= time.from && end(time) <= end(known);
}
