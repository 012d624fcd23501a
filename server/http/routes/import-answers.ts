import { z } from "@hono/zod-openapi";
import { type BroughtIn, findBroughtIn, type Upload } from "../../cases/import-record.ts";
import { lastJobOn } from "../../cases/job-record.ts";
import { nameIds } from "../../cases/name-ids.ts";
import type { ImportPreview } from "../../domain/intake/import-preview.ts";
import type { Services } from "../services.ts";
import { idText, instantText, toInstantText } from "../wire.ts";
import { jobAnswer, jobOnWire } from "./jobs.ts";

export const importWhat = z.enum(["pieces", "models", "members"]);

export const broughtIn = z
  .object({
    sha256: z.string(),
    name: z.string(),
    what: importWhat,
    at: instantText,
    by: z.string(),
    accepted: z.int(),
    parked: z.int(),
    act: idText.optional(),
  })
  .openapi("BroughtIn");

const previewOnWire = z.object({
  headers: z.array(z.string()),
  columns: z.array(
    z.object({
      field: z.string(),
      header: z.string(),
      howToWrite: z.string(),
      isRequired: z.boolean(),
      at: z.int().optional(),
    }),
  ),
  missing: z.array(z.string()),
  unused: z.array(z.int()),
  contested: z.array(z.object({ field: z.string(), columns: z.array(z.int()) })),
  rows: z.int(),
  accepted: z.int(),
  parked: z.int(),
  counts: z.object({ fresh: z.int(), changed: z.int(), same: z.int() }),
  sample: z.array(z.object({ row: z.int(), cells: z.array(z.string()) })),
  groups: z.array(
    z.object({
      code: z.string(),
      header: z.string().optional(),
      says: z.string(),
      rows: z.int(),
      firstRow: z.int(),
    }),
  ),
  missingPlaces: z.array(z.object({ name: z.string(), what: z.enum(["place", "station"]), rows: z.int() })),
  digest: z.string(),
});

export const importOnWire = z
  .object({
    id: idText,
    what: importWhat,
    name: z.string(),
    at: instantText,
    by: z.string(),
    /** Set when these bytes were brought in, now or before: nothing is left to do. */
    broughtIn: broughtIn.optional(),
    preview: previewOnWire.optional(),
    job: jobOnWire.optional(),
  })
  .openapi("Import");

export const problemsPage = z.object({
  problems: z.array(
    z.object({
      n: z.int(),
      row: z.int(),
      column: z.int().optional(),
      header: z.string().optional(),
      code: z.string(),
      value: z.string().optional(),
      says: z.string(),
    }),
  ),
  next: z.int().optional(),
});

/** Writes an upload as it goes over the wire, with its newest job and what became of its bytes. */
export async function importAnswer(
  services: Services,
  upload: Upload,
): Promise<z.input<typeof importOnWire>> {
  const { db } = services;
  const [file, job] = [await findBroughtIn(db, upload.sha256), await lastJobOn(db, upload.id)];
  const nameOf = await nameIds(db, [upload.by, ...(file ? [file.by] : [])]);
  return {
    ...{ id: upload.id, what: upload.what, name: upload.name, by: nameOf(upload.by) },
    at: toInstantText(upload.madeAt.getTime()),
    ...(file ? { broughtIn: broughtInAnswer(file, nameOf) } : {}),
    ...(upload.preview ? { preview: asOnWire(upload.preview as ImportPreview) } : {}),
    ...(job ? { job: jobAnswer(job) } : {}),
  };
}

/** What was kept as JSON goes out as it is: its lists are read-only by name alone. */
function asOnWire(preview: ImportPreview): z.input<typeof previewOnWire> {
  return preview as unknown as z.input<typeof previewOnWire>;
}

/** Writes a file that was brought in. */
export function broughtInAnswer(file: BroughtIn, nameOf: (id: string) => string): z.input<typeof broughtIn> {
  const { act, ...rest } = file;
  return { ...rest, at: toInstantText(file.at.getTime()), by: nameOf(file.by), ...(act ? { act } : {}) };
}
