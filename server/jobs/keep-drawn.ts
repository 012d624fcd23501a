import { readBack } from "../../labels/draw/read-back.ts";
import type { PrintRefusal } from "../../labels/layout/print-refusal.ts";
import { sayPrintRefusal } from "../../labels/layout/print-refusal.ts";
import type { JobReason } from "../cases/job-record.ts";
import { keepPrintFile } from "../cases/print-record.ts";
import type { Uuid } from "../domain/ids.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { JobEnd, JobSetting } from "./job-order.ts";
import { MOST_REASONS } from "./say-refusals.ts";

const DOES_NOT_READ_BACK: JobReason = {
  code: "does-not-read-back",
  what: "Not drawn.",
  why: "A symbol of the file reads otherwise than its number. None of it may be downloaded.",
  next: "Draw it again; if it stays, call who runs this server.",
};

/** Keeps a drawn file once every symbol in it reads as its number, in order; else gives the reason. */
export async function keepIfItReads(
  { db }: JobSetting,
  run: Uuid,
  file: { readonly n: number; readonly bytes: Uint8Array; readonly numbers: readonly TagNumber[] },
): Promise<JobReason | undefined> {
  const read = await readBack(file.bytes);
  const isSame =
    read.length === file.numbers.length && file.numbers.every((number, at) => read[at] === number);
  if (!isSame) return DOES_NOT_READ_BACK;
  await keepPrintFile(db, run, { n: file.n, count: file.numbers.length, bytes: file.bytes });
  return undefined;
}

/** Says why a run was not drawn. `whose` names the piece or place of a number that nothing carries yet. */
export function sayPrintRefusals(
  refusals: readonly PrintRefusal[],
  whose: (number: TagNumber) => string | undefined,
): JobEnd {
  return {
    reasons: refusals.slice(0, MOST_REASONS).map((refusal) => {
      const name = "number" in refusal ? whose(refusal.number) : undefined;
      const { what, why, next } = sayPrintRefusal(refusal);
      return { code: refusal.code, what: name ? `Not printed: ${name}.` : what, why, next };
    }),
  };
}
