import type { WhenWords } from "../domain/when-words.ts";

/** Writes instants as the clocks of a time zone have them, with their weekday: `Wed 12 Nov 2025, 02:10`. */
export function whenInZone(timeZone: string): WhenWords {
  const format = new Intl.DateTimeFormat("en-US", {
    ...{ timeZone, weekday: "short", day: "numeric", month: "short", year: "numeric" },
    ...{ hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
  });
  return (at) => {
    const parts = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]));
    const { weekday, day, month, year, hour, minute } = parts as Record<string, string>;
    return `${weekday} ${day} ${month} ${year}, ${hour}:${minute}`;
  };
}
