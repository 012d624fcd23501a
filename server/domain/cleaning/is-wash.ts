import type { HowCleaned } from "../pieces/piece-entries.ts";

/**
 * Tells whether a kind of cleaning is a wash: it ends "soiled" and counts among the piece's washes. A rinse at the scene,
 * sanitisation and disinfection do neither. What ends a contamination is the department's policy, not this.
 */
export function isWash(how: HowCleaned): boolean {
  return how === "advanced cleaning" || how === "specialised cleaning";
}
