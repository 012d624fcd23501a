import { onPiece } from "../bench/bench-state.ts";
import type { Rulebook } from "../bench/rulebook.ts";
import { isSeen } from "../evidence.ts";
import type { PieceCleaned } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { NewEntry } from "../subjects.ts";
import { openOf, standingContamination } from "./standing-contamination.ts";

/**
 * Writes a cleaning of a piece with what follows for its contamination holds: those whose kinds are all ended by what
 * the policy accepts are lifted by it, and the cleaning keeps the codes of the kinds that it leaves open. A hold that
 * names no event stays until somebody lifts it. Every act that cleans writes its cleanings through this.
 */
export function cleaned(state: PieceState, entry: PieceCleaned, book: Rulebook): readonly NewEntry[] {
  const done = { at: entry.at, how: entry.how, isSeen: isSeen(entry.evidence) };
  const holds = standingContamination(state, book).map(({ event, version }) => {
    return { version, open: openOf(state, event, book, [done]) };
  });
  const leavesOpen = [...new Set(holds.flatMap(({ open }) => open.map(({ code }) => code)))].sort();
  const lifted = holds.filter(({ open }) => open.length === 0);
  const { at, evidence } = entry;
  return [
    onPiece(state.id, { ...entry, ...(leavesOpen.length > 0 ? { leavesOpen } : {}) }),
    ...lifted.map(({ version }) =>
      onPiece(state.id, { kind: "HoldLifted", at, evidence, hold: version, because: "cleaned" }),
    ),
  ];
}
