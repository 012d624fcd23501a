/** The demo's clock: it starts in the past and is moved on until it reaches today. */
export interface DemoClock {
  now(): number;
  /** Moves to a wall-clock time some days after the start; never back. */
  at(day: number, hour: number, minute?: number): number;
  /** Moves on by minutes. */
  pass(minutes: number): number;
  readonly lastDay: number;
}

export const DAY_MS = 86_400_000;

/** Starts a clock `days` before today. Hours are of the department's day, `offsetMin` from UTC. */
export function demoClock(todayMs: number, days: number, offsetMin: number): DemoClock {
  const midnight = Math.floor((todayMs + offsetMin * 60_000) / DAY_MS) * DAY_MS - offsetMin * 60_000;
  const start = midnight - days * DAY_MS;
  let now = start;
  return {
    now: () => now,
    at: (day, hour, minute = 0) => {
      now = Math.max(now, Math.min(start + day * DAY_MS + (hour * 60 + minute) * 60_000, todayMs));
      return now;
    },
    pass: (minutes) => {
      now = Math.min(now + minutes * 60_000, todayMs);
      return now;
    },
    lastDay: days,
  };
}
