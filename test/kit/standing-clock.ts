import type { Instant } from "../../server/domain/time.ts";

/** A clock that stands still until it is told otherwise. */
export interface StandingClock {
  readonly now: () => Instant;
  readonly advanceMs: (ms: number) => Instant;
}

/** Makes a clock that starts at an instant given as ISO 8601 text. */
export function standingClock(start = "2026-03-02T08:00:00Z"): StandingClock {
  let at = Date.parse(start);
  if (Number.isNaN(at)) throw new Error(`${start} is no instant.`);
  return {
    now: () => at as Instant,
    advanceMs: (ms) => {
      at += ms;
      return at as Instant;
    },
  };
}
