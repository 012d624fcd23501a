import { z } from "@hono/zod-openapi";
import { SHEETS, type SheetName } from "../../../labels/layout/media.ts";
import { PRINTERS, type PrinterName } from "../../../labels/layout/printer.ts";
import { PRINT_CAUTIONS, PRINT_STEPS, SHEET_CAUTION } from "../../../labels/papers/print-cautions.ts";
import { lastJobOn } from "../../cases/job-record.ts";
import { nameIds } from "../../cases/name-ids.ts";
import type { PrintRunOnRecord } from "../../cases/print-record.ts";
import type { Services } from "../services.ts";
import { idText, instantText, toInstantText } from "../wire.ts";
import { jobAnswer, jobOnWire } from "./jobs.ts";

const SHEET_NAMES = Object.keys(SHEETS) as [SheetName, ...SheetName[]];
export const tagStock = z.enum(["roll", ...SHEET_NAMES]);
export const cardStock = z.enum(["single", "A4", "Letter"]);
export const dpi = z
  .enum(Object.keys(PRINTERS) as [PrinterName, ...PrinterName[]])
  .openapi({ description: "Dots an inch of the printer that will print the file" });

export const printOptions = z
  .object({
    tagStocks: z.array(z.object({ name: tagStock, places: z.int(), isSheet: z.boolean() })),
    cardStocks: z.array(z.object({ name: cardStock, places: z.int() })),
    dpis: z.array(dpi),
    cautions: z.array(z.object({ text: z.string(), basis: z.string() })),
    sheetCaution: z.object({ text: z.string(), basis: z.string() }),
    steps: z.array(z.string()),
  })
  .openapi("PrintOptions");

/** What a print can be printed on, and what has to be settled before. */
export function printOptionsAnswer(): z.input<typeof printOptions> {
  return {
    tagStocks: [
      { name: "roll", places: 1, isSheet: false },
      ...SHEET_NAMES.map((name) => {
        return { name, places: SHEETS[name].columns * SHEETS[name].rows, isSheet: true };
      }),
    ],
    cardStocks: [
      { name: "A4", places: 4 },
      { name: "Letter", places: 4 },
      { name: "single", places: 1 },
    ],
    dpis: Object.keys(PRINTERS) as PrinterName[],
    cautions: [...PRINT_CAUTIONS],
    sheetCaution: SHEET_CAUTION,
    steps: [...PRINT_STEPS],
  };
}

const states = z.object({
  reserved: z.int().optional(),
  printed: z.int().optional(),
  attached: z.int().optional(),
  superseded: z.int().optional(),
  lost: z.int().optional(),
  destroyed: z.int().optional(),
  void: z.int().optional(),
});

export const printRun = z
  .object({
    id: idText,
    what: z.enum(["tags", "cards"]),
    by: z.string(),
    at: instantText,
    stock: z.string(),
    dpi: z.string(),
    words: z.string(),
    count: z.int(),
    /** How many of its tags are in which state; empty for cards. */
    states,
    /** Its files while they are kept; `count` 0 is the ruler page of a sheet. */
    files: z.array(z.object({ n: z.int(), count: z.int(), bytes: z.int() })),
  })
  .openapi("PrintRun");
export const printRunWithJob = printRun.extend({ job: jobOnWire.optional() }).openapi("PrintRunWithJob");

/** Writes runs as they go over the wire. */
export async function printRunAnswers(
  { db }: Services,
  runs: readonly PrintRunOnRecord[],
): Promise<z.input<typeof printRun>[]> {
  const nameOf = await nameIds(
    db,
    runs.map(({ by }) => by),
  );
  return runs.map(({ madeAt, by, dpi: dots, files, ...run }) => ({
    ...run,
    ...{ by: nameOf(by), at: toInstantText(madeAt.getTime()), dpi: String(dots), files: [...files] },
  }));
}

/** Writes one run with its newest job. */
export async function printRunAnswer(
  services: Services,
  run: PrintRunOnRecord,
): Promise<z.input<typeof printRunWithJob>> {
  const [answer] = await printRunAnswers(services, [run]);
  if (!answer) throw new Error("A run that was read has no answer.");
  const job = await lastJobOn(services.db, run.id);
  return { ...answer, ...(job ? { job: jobAnswer(job) } : {}) };
}
