import type { PieceView } from "../../../server/domain/piece-view.ts";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";

/** On which side of the cage this device stands. */
export type BenchSide = "soiled" | "clean" | "not said";
const SIDE = "layertrail.side";

/** Reads the side that was said of this device. */
export function sideOfBench(): BenchSide {
  try {
    const side = localStorage.getItem(SIDE);
    return side === "soiled" || side === "clean" ? side : "not said";
  } catch {
    return "not said";
  }
}

/** Keeps the side on this device. Where nothing may be kept it holds until the page is left. */
export function keepSide(side: BenchSide): void {
  try {
    localStorage.setItem(SIDE, side);
  } catch {
    // Nothing may be kept here.
  }
}

/**
 * Says that a soiled piece has come to the clean side: "This came in soiled 40 minutes ago and has no load." Undefined
 * where it has no reason to. `side` is of the device that saw it or of the place where it is to go.
 */
export function straysSay(piece: PieceView, side: BenchSide | undefined, now: number): string | undefined {
  if (side !== "clean" || !piece.soiled) return undefined;
  const since = piece.soiledSince ? Date.parse(piece.soiledSince) : undefined;
  const ago = since === undefined ? undefined : agoWords(Math.max(0, now - since));
  return CLEANING_WORDS.strayed(piece.kind.name, ago);
}

function agoWords(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 90) return minutes === 1 ? "1 minute" : `${minutes} minutes`;
  const hours = Math.round(minutes / 60);
  return hours < 48 ? `${hours} hours` : `${Math.round(hours / 24)} days`;
}
