/** Machines and programmes as they are typed: figures with their units, read once. */
import type { ProgrammeFacts, Temperature } from "../../../server/domain/cleaning/machine.ts";
import { HOW_CLEANED, type HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";

export interface ProgrammeDraft {
  readonly name: string;
  readonly how: HowCleaned | "drying";
  readonly temperature: string;
  readonly ph: string;
  readonly rpm: string;
  readonly minutes: string;
}

export const NEW_PROGRAMME: ProgrammeDraft = {
  ...{ name: "", how: "advanced cleaning", temperature: "", ph: "", rpm: "", minutes: "" },
};
export const HOWS: readonly ProgrammeDraft["how"][] = [...HOW_CLEANED, "drying"];

/** Writes a programme as it would be typed. */
export function draftOf(programme: ProgrammeFacts): ProgrammeDraft {
  const { temperature, detergentPhTenths: ph, extractionRpm: rpm, minutes } = programme;
  return {
    name: programme.name,
    how: programme.how ?? "drying",
    temperature: temperature ? `${temperature.degrees} ${temperature.scale}` : "",
    ph: ph === undefined ? "" : (ph / 10).toFixed(1),
    rpm: rpm === undefined ? "" : String(rpm),
    minutes: minutes === undefined ? "" : String(minutes),
  };
}

/** Reads "105 F", "105 °F" or "40 C"; undefined for anything else. */
export function readTemperature(text: string): Temperature | undefined {
  const parts = /^(\d{1,3})\s*°?\s*([FC])$/i.exec(text.trim());
  if (!parts) return undefined;
  return { degrees: Number(parts[1]), scale: parts[2]?.toUpperCase() === "C" ? "C" : "F" };
}

/** Reads a drum's diameter, "30 in" or "762 mm", as whole millimetres; undefined for anything else. */
export function readDiameter(text: string): number | undefined {
  const parts = /^(\d{1,4}(?:\.\d{1,2})?)\s*(in|inch|inches|mm)$/i.exec(text.trim());
  if (!parts) return undefined;
  const mm = Math.round(Number(parts[1]) * (/^mm$/i.test(parts[2] ?? "") ? 1 : 25.4));
  return mm >= 100 && mm <= 3000 ? mm : undefined;
}

/** Says a diameter as it is talked about: "30 in (762 mm)". */
export function sayDiameter(mm: number): string {
  return `${Number((mm / 25.4).toFixed(1))} in (${mm} mm)`;
}

/** Reads a whole number in a range; undefined for anything else. */
export function readWhole(text: string, least: number, most: number): number | undefined {
  const value = /^\d{1,5}$/.test(text.trim()) ? Number(text) : Number.NaN;
  return value >= least && value <= most ? value : undefined;
}

function readPh(text: string): number | undefined {
  const value = /^\d{1,2}(\.\d)?$/.test(text.trim()) ? Math.round(Number(text) * 10) : Number.NaN;
  return value >= 0 && value <= 140 ? value : undefined;
}

export type ProgrammeProblems = Partial<Record<keyof ProgrammeDraft, true>>;

/** Reads a programme. What is left empty stays unknown; what is typed and cannot be read is a problem. */
export function readProgramme(
  draft: ProgrammeDraft,
): { readonly programme: ProgrammeFacts } | { readonly problems: ProgrammeProblems } {
  const read = {
    temperature: readTemperature(draft.temperature),
    ph: readPh(draft.ph),
    rpm: readWhole(draft.rpm, 1, 3000),
    minutes: readWhole(draft.minutes, 1, 1440),
  };
  const problems: Record<string, true> = {};
  const name = draft.name.trim();
  if (name === "" || name.length > 80) problems["name"] = true;
  for (const field of ["temperature", "ph", "rpm", "minutes"] as const) {
    if (draft[field].trim() !== "" && read[field] === undefined) problems[field] = true;
  }
  if (Object.keys(problems).length > 0) return { problems };
  return {
    programme: {
      name,
      ...(draft.how === "drying" ? {} : { how: draft.how }),
      ...(read.temperature ? { temperature: read.temperature } : {}),
      ...(read.ph === undefined ? {} : { detergentPhTenths: read.ph }),
      ...(read.rpm === undefined ? {} : { extractionRpm: read.rpm }),
      ...(read.minutes === undefined ? {} : { minutes: read.minutes }),
    },
  };
}
