/** How a fact is known, strongest first. Presumed, imported and told never count in a stock-take or permit anything. */
export const EVIDENCE = [
  "scanned",
  "typed",
  "with its set",
  "described",
  "presumed",
  "told by provider",
  "imported",
] as const;

export type Evidence = (typeof EVIDENCE)[number];

/** Tells whether somebody saw the piece itself: only such a fact supports where it was. */
export function isSeen(evidence: Evidence): boolean {
  return evidence === "scanned" || evidence === "typed";
}
