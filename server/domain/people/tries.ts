/** Wrong tries in a row that cost nothing but themselves. Source: NIST SP 800-63B-4 section 3.2.2 asks for a limit; five is ours. */
export const FREE_TRIES = 5;
const FIRST_LOCK_MS = 60_000;
const LONGEST_LOCK_MS = 3_600_000;

/**
 * Tells for how long nothing is tried after so many wrong tries in a row, in milliseconds: 0 below five, then a minute,
 * doubled by each further one up to an hour. At an hour each, 10,000 PINs take more than a year. Own judgement.
 */
export function lockAfterMs(failedTries: number): number {
  if (failedTries < FREE_TRIES) return 0;
  return Math.min(LONGEST_LOCK_MS, FIRST_LOCK_MS * 2 ** (failedTries - FREE_TRIES));
}
