/** The names of what a label check says, as data: every part that shows a verdict takes one of these. */
export type VerdictName = "match" | "accepted" | "differs" | "cannot-tell" | "not-read" | "none";

/** Tells whether a verdict stops the act: a difference and "cannot tell" stop alike. */
export function isStop(verdict: VerdictName): boolean {
  return verdict === "differs" || verdict === "cannot-tell";
}
