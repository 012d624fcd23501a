import type { LoadId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { Decided } from "../refusal.ts";
import type { Instant } from "../time.ts";
import type { LoadEntry } from "./load.ts";

/**
 * Takes back entries of a load, as an undo does. Refuses what is taken back already, and the start of a load whose end
 * would stay.
 */
export function takeBackLoadEntries(
  subject: LoadId,
  entries: readonly Versioned<LoadEntry>[],
  versions: readonly number[],
  at: Instant,
): Decided<readonly LoadEntry[]> {
  const before = new Set(
    entries.flatMap(({ entry }) => (entry.kind === "LoadEntryTakenBack" ? [entry.takesBack] : [])),
  );
  const again = versions.find((version) => before.has(version));
  if (again !== undefined) {
    return { refusals: [{ code: "cannot-correct", subject, version: again, why: "corrected already" }] };
  }
  const left = entries.filter(({ version }) => !before.has(version) && !versions.includes(version));
  const hasStart = left.some(({ entry }) => entry.kind === "LoadStarted");
  const end = left.map(({ entry }) => entry).find((entry) => entry.kind === "LoadEnded");
  if (!hasStart && end)
    return { refusals: [{ code: "load-over", subject: loadedIn(subject, entries), at: end.at }] };
  return { entries: versions.map((takesBack) => ({ kind: "LoadEntryTakenBack", at, takesBack })) };
}

function loadedIn(load: LoadId, entries: readonly Versioned<LoadEntry>[]) {
  const start = entries.map(({ entry }) => entry).find((entry) => entry.kind === "LoadStarted");
  if (!start) return load;
  return start.ran.in === "machine" ? start.ran.machine : start.ran.provider;
}
