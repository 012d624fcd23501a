import type { BenchRun, BenchStep } from "./bench-run.ts";
import { hasTray, type Mode } from "./mode.ts";

/** A step that only changes what stands on the bench. */
export function still(run: BenchRun): BenchStep {
  return { run, effects: [] };
}

/** A step with its sound. */
export function sounding(run: BenchRun, sound: "stitch" | "knot" | "snap" | "slack"): BenchStep {
  return { run, effects: [{ do: "sound", sound }] };
}

/** Enters a mode. The tray goes along between modes that have one: nothing that was scanned is lost. */
export function enter(run: BenchRun, mode: Mode, card?: string): BenchRun {
  const tray = hasTray(mode) ? run.tray : [];
  const kept = mode.kind === run.mode.kind ? run.cards : [];
  // Another programme is still the same machine, whose card starts it.
  const cards = card ? [...kept, card] : mode.kind === "load" ? kept : [];
  return { ...withoutShell(run), mode, tray, cards, shown: { what: "nothing" } };
}

function withoutShell(run: BenchRun): BenchRun {
  const { shell: _, ...rest } = run;
  return rest;
}
