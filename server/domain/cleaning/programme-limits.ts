import type { Settings } from "../register/policy.ts";
import { extractionG } from "./extraction.ts";
import type { MachineFacts, ProgrammeFacts } from "./machine.ts";

/** Where the starting limits come from, shown beside them. Source: facts.md 1.5 [S34][S35][S36]. */
export const LIMITS_SOURCE =
  "2014/2020 family, from providers' and trade guides (not the standard's own text). The 2026 text is reported to differ. The garment's label and the maker come first.";

/** The settings that limit a programme, each with what it can be at all. */
export const LIMIT_SETTINGS = {
  "wash temperature, most °F": { least: 32, most: 212 },
  "wash temperature, most °C": { least: 0, most: 100 },
  "detergent pH, least": { least: 0, most: 14 },
  "detergent pH, most": { least: 0, most: 14 },
  "extraction, most G": { least: 1, most: 1000 },
} as const satisfies Partial<Record<keyof Settings, { readonly least: number; readonly most: number }>>;
export type LimitSetting = keyof typeof LIMIT_SETTINGS;

/** Tells whether a text is a figure that a limit can be: with at most one decimal, and in its range. */
export function isLimit(name: LimitSetting, text: string): boolean {
  const { least, most } = LIMIT_SETTINGS[name];
  return /^\d{1,4}(\.\d)?$/.test(text) && Number(text) >= least && Number(text) <= most;
}

/** The department's limits for washing, from its settings. Both temperatures count, each in its own scale. */
export interface ProgrammeLimits {
  readonly degreesF: number;
  readonly degreesC: number;
  readonly leastPhTenths: number;
  readonly mostPhTenths: number;
  readonly mostG: number;
}

/** Reads the limits out of the settings, whose values are text. */
export function limitsFrom(settings: Settings): ProgrammeLimits {
  return {
    degreesF: Number(settings["wash temperature, most °F"]),
    degreesC: Number(settings["wash temperature, most °C"]),
    leastPhTenths: Math.round(Number(settings["detergent pH, least"]) * 10),
    mostPhTenths: Math.round(Number(settings["detergent pH, most"]) * 10),
    mostG: Number(settings["extraction, most G"]),
  };
}

export type LimitKind = "temperature" | "detergent pH" | "extraction";

/** One limit that a programme passes, in figures for a person: "110 °F", "105 °F". */
export interface OverLimit {
  readonly what: LimitKind;
  readonly is: string;
  readonly limit: string;
}

/** What comparing a programme with the limits says. What is not on record is not compared, and is said. */
export interface LimitCheck {
  readonly over: readonly OverLimit[];
  readonly unknown: readonly LimitKind[];
  /** Computed where rpm and drum are on record. */
  readonly g?: number;
}

/** Compares a programme on a machine with the department's limits. Gives all that is over, and all that cannot be told. */
export function checkProgramme(
  machine: Pick<MachineFacts, "what" | "drumDiameterMm">,
  programme: ProgrammeFacts,
  limits: ProgrammeLimits,
): LimitCheck {
  const over: OverLimit[] = [];
  const unknown: LimitKind[] = [];
  const { temperature, detergentPhTenths: ph, extractionRpm: rpm } = programme;
  const { drumDiameterMm: drum } = machine;
  if (!temperature) unknown.push("temperature");
  else {
    const most = temperature.scale === "F" ? limits.degreesF : limits.degreesC;
    if (temperature.degrees > most) {
      const unit = `°${temperature.scale}`;
      over.push({ what: "temperature", is: `${temperature.degrees} ${unit}`, limit: `${most} ${unit}` });
    }
  }
  const isWet = programme.how !== undefined;
  if (isWet && ph === undefined) unknown.push("detergent pH");
  if (ph !== undefined && (ph < limits.leastPhTenths || ph > limits.mostPhTenths)) {
    const limit = `pH ${tenths(limits.leastPhTenths)} to ${tenths(limits.mostPhTenths)}`;
    over.push({ what: "detergent pH", is: `pH ${tenths(ph)}`, limit });
  }
  const g = rpm === undefined || drum === undefined ? undefined : extractionG(rpm, drum);
  if (g === undefined && machine.what === "washer-extractor") unknown.push("extraction");
  if (g !== undefined && g > limits.mostG) {
    over.push({ what: "extraction", is: `${g.toFixed(1)} G`, limit: `${limits.mostG} G` });
  }
  return { over, unknown, ...(g === undefined ? {} : { g }) };
}

function tenths(value: number): string {
  return (value / 10).toFixed(1);
}
