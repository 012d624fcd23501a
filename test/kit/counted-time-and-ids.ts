import type { Uuid } from "../../server/domain/ids.ts";
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

/** Makes ids that are valid UUIDs of version 7 (RFC 9562) and the same in every run: `series` tells two makers apart. */
export function countedIds(series = 1): () => Uuid {
  let count = 0;
  return () => {
    count += 1;
    const low = `${series.toString(16).padStart(4, "0")}${count.toString(16).padStart(8, "0")}`;
    return `01950000-0000-7000-8000-${low}` as Uuid;
  };
}
