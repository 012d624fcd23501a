import type { PieceFault, PieceState } from "../pieces/piece-state.ts";
import type { Instant } from "../time.ts";
import { stayAt } from "./fold-stays.ts";

/** What may be written in place of a late record that the later record stands against. */
export const WAYS_OUT = ["there and back", "found here", "correction"] as const;
export type WayOut = (typeof WAYS_OUT)[number];

/**
 * Lists what can be written instead of a record that does not fit. A move that meets a later one from where the piece
 * was on record may have gone there and come back; what is in hand now is found here; and the earlier entry can be
 * corrected. Nothing is offered for a time before the piece was registered: only the time can be mended.
 */
export function waysOut(
  fault: PieceFault,
  act: { readonly name: string; readonly at: Instant; readonly isThereAndBack: boolean },
): readonly WayOut[] {
  switch (fault.code) {
    case "holder-differs": {
      const meetsLater = act.name === "movePieces" && !act.isThereAndBack && fault.at > act.at;
      return [...(meetsLater ? (["there and back"] as const) : []), "found here", "correction"];
    }
    case "after-retired":
    case "already-fitted":
    case "not-fitted-there":
      return ["correction"];
    case "before-registered":
    case "never-registered":
      return [];
  }
}

/**
 * Gives the last instant at which pieces that left together may have come back, so that what was recorded later holds:
 * just before the first of them is next recorded as moved or found. Undefined when nothing later is on record.
 */
export function backBy(states: readonly PieceState[], at: Instant): Instant | undefined {
  const next = states.flatMap(({ stays, foundAt }) => [
    ...ending(stayAt(stays, at)?.to),
    ...foundAt.filter((found) => found > at),
  ]);
  return next.length === 0 ? undefined : ((Math.min(...next) - 1) as Instant);
}

function ending(to: Instant | undefined): readonly Instant[] {
  return to === undefined ? [] : [to];
}
