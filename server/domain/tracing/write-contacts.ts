import { writeMoment } from "./moment.ts";
import type { Contact, Path } from "./trace-history.ts";
import type { TraceDirection } from "./trace-view.ts";

/**
 * Writes contacts as rows under `piece,arrival,hops,path`, by hops, arrival and piece. Arrival and hops are those of the
 * path, which is the one with the fewest steps.
 */
export function writeContacts(contacts: readonly Contact[], direction: TraceDirection): string[][] {
  const rows = contacts.map(({ piece, path }) => [
    piece,
    writeMoment(path.arrival),
    String(path.hops),
    writePath(path, direction),
  ]);
  return [["piece", "arrival", "hops", "path"], ...rows];
}

/**
 * Writes a path as piece, holder, piece, … in the order of time, parted by " > ", each with its moment after its last
 * "@". Forward that is the first moment at which it may have been reached, backward the last one that leads to the root.
 */
export function writePath({ legs, arrival, root, rootAt }: Path, direction: TraceDirection): string {
  const parts: (readonly [string, number])[] = [];
  if (direction === "forward") {
    parts.push([root, rootAt]);
    for (const leg of legs) parts.push([leg.holder, leg.left], [leg.to, leg.at]);
  } else {
    parts.push([legs[0]?.from ?? root, arrival]);
    for (const [index, leg] of legs.entries())
      parts.push([leg.holder, leg.at], [leg.to, legs[index + 1]?.left ?? rootAt]);
  }
  return parts.map(([name, at]) => `${name}@${writeMoment(at)}`).join(" > ");
}
