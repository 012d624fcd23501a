import { randomInt } from "node:crypto";
import { drawTagNumber, type TagNumber } from "../domain/tags/tag-number.ts";
import type { Tx } from "../store/db.ts";

/**
 * Draws numbers that nothing on record carries, from a cryptographic source, so that no number tells the size of the
 * fleet or its neighbour. A number that is taken or was drawn a moment ago is drawn again.
 */
export async function drawNumbers(tx: Tx, count: number): Promise<TagNumber[]> {
  const drawn = new Set<TagNumber>();
  while (drawn.size < count) {
    const fresh: TagNumber[] = [];
    while (drawn.size + fresh.length < count) fresh.push(drawTagNumber((below) => randomInt(below)));
    const taken = await tx.selectFrom("numbered").select("number").where("number", "in", fresh).execute();
    const known = new Set(taken.map(({ number }) => number));
    for (const number of fresh) if (!known.has(number)) drawn.add(number);
  }
  return [...drawn];
}

/** Draws numbers that only stand in for others while a print is laid out: they are kept nowhere. */
export function placeholderNumbers(count: number): readonly TagNumber[] {
  const drawn = new Set<TagNumber>();
  while (drawn.size < count) drawn.add(drawTagNumber((below) => randomInt(below)));
  return [...drawn];
}
