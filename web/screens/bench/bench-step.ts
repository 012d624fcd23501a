import type { BenchRun, BenchStep } from "./bench-run.ts";

/** A step that only changes what stands on the bench. */
export function still(run: BenchRun): BenchStep {
  return { run, effects: [] };
}

/** A step with its sound. */
export function sounding(run: BenchRun, sound: "stitch" | "knot" | "snap" | "slack"): BenchStep {
  return { run, effects: [{ do: "sound", sound }] };
}
