import type { Finding } from "../ledger/finding.ts";

/** How many findings of a check are told; the rest is counted. A table that was emptied must not fill the memory. */
export const TOLD_AT_MOST = 1_000;

/** Keeps the first findings and counts all. */
export class FindingsKept {
  readonly told: Finding[] = [];
  count = 0;

  add(findings: readonly Finding[]): void {
    this.count += findings.length;
    for (const finding of findings) {
      if (this.told.length === TOLD_AT_MOST) return;
      this.told.push(finding);
    }
  }
}
