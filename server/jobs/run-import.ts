import {
  FileKnown,
  importMembersAct,
  importModelsAct,
  importPiecesAct,
  partNames,
} from "../cases/import-acts.ts";
import {
  closeUpload,
  findBroughtIn,
  findUpload,
  keepPreview,
  type Upload,
  uploadBytes,
} from "../cases/import-record.ts";
import { readImportRegister } from "../cases/import-register.ts";
import { type ActOutcome, runAct } from "../cases/run-act.ts";
import type { Uuid } from "../domain/ids.ts";
import { sayFileRefusal } from "./file-refusal-words.ts";
import type { JobEnd, JobOrder, JobSetting } from "./job-order.ts";
import { countsOf, type Plan, planFile, type ToldFile, tellFile } from "./plan-file.ts";
import { readFile } from "./read-file.ts";
import { sayRefusals } from "./say-refusals.ts";

const GONE: JobEnd = {
  reasons: [
    {
      code: "upload-gone",
      what: "Not done.",
      why: "The file is no longer here: it is kept for a day, and until it is brought in.",
      next: "Choose the file again.",
    },
  ],
};

/** Reads an upload against the register and keeps what it came to for the preview. */
export async function readUpload(about: Uuid, setting: JobSetting): Promise<JobEnd> {
  const found = await findWhole(about, setting);
  if (!found) return GONE;
  const read = await readAndPlan(found.upload, found.bytes, setting);
  if ("reasons" in read) return read;
  const { preview: summary, ...rest } = read.told;
  setting.onProgress({ step: "keeping the preview", done: 0, total: 0 });
  await keepPreview(setting.db, about, { summary, ...rest });
  return { done: true };
}

/**
 * Brings in an upload: reads it anew, compares with what the person saw, and writes all accepted rows as one act. A
 * register that changed in between gives a new preview instead; a file that was brought in before changes nothing.
 */
export async function bringInFile(
  order: Extract<JobOrder, { what: "bring in file" }>,
  setting: JobSetting,
): Promise<JobEnd> {
  const { db, onProgress } = setting;
  const found = await findWhole(order.about, setting);
  if (!found) return GONE;
  const read = await readAndPlan(found.upload, found.bytes, setting);
  if ("reasons" in read) return read;
  const { plan, told, hash } = read;
  const { preview: summary, ...rest } = told;
  if (summary.digest !== order.digest) {
    await keepPreview(db, order.about, { summary, ...rest });
    return { reasons: [REGISTER_CHANGED] };
  }
  const { fresh, changed } = countsOf(plan);
  if (fresh + changed === 0) return { reasons: [NOTHING_NEW] };
  onProgress({ step: "writing", done: 0, total: 0 });
  try {
    const onWritten = (done: number, total: number) => onProgress({ step: "writing", done, total });
    const beside = { name: found.upload.name, parked: summary.parked, ...parkedOf(told), onWritten };
    const outcome = await write(plan, hash, beside, order, setting);
    if ("refusals" in outcome) return sayRefusals(outcome.refusals, setting);
  } catch (failure) {
    if (!(failure instanceof FileKnown)) throw failure;
    return { reasons: [FILE_KNOWN] };
  }
  await closeUpload(db, order.about);
  return { done: true };
}

const REGISTER_CHANGED = {
  code: "register-changed",
  what: "Not brought in.",
  why: "The register has changed since this preview, and some rows come to something else now.",
  next: "Look at the new preview, then bring it in.",
};
const NOTHING_NEW = {
  code: "nothing-new",
  what: "Not brought in.",
  why: "No row says anything that the register does not say already.",
  next: "Mend the parked rows, or choose another file.",
};
const FILE_KNOWN = {
  code: "file-known",
  what: "Nothing was changed.",
  why: "This file was brought in before.",
  next: "Look at when and by whom; to add rows, bring in a file of these rows alone.",
};

/** Tells whether exactly this order was written, for a thread that was ended while it wrote. */
export async function wasBroughtIn(
  db: JobSetting["db"],
  order: Extract<JobOrder, { what: "bring in file" }>,
): Promise<boolean> {
  const upload = await findUpload(db, order.about);
  const file = upload && (await findBroughtIn(db, upload.sha256));
  return file !== undefined && String(file.act) === String(order.envelope.id);
}

async function findWhole(about: Uuid, { db }: JobSetting) {
  const [upload, bytes] = [await findUpload(db, about), await uploadBytes(db, about)];
  return upload && bytes ? { upload, bytes } : undefined;
}

async function readAndPlan(
  upload: Upload,
  bytes: Uint8Array,
  setting: JobSetting,
): Promise<
  { readonly plan: Plan; readonly told: ToldFile; readonly hash: string } | { reasons: JobReasons }
> {
  const { db, now, onProgress } = setting;
  const register = await readImportRegister(db, now());
  const given = { bytes, what: upload.what, overrides: upload.columns };
  const read = await readFile(db, given, register, (done, total) =>
    onProgress({ step: "reading the file", done, total }),
  );
  if ("refusal" in read) return { reasons: [sayFileRefusal(read.refusal)] };
  onProgress({ step: "comparing with the register", done: 0, total: 0 });
  const plan = planFile(read, register, now());
  return { plan, told: tellFile(read, plan), hash: read.file.hash };
}
type JobReasons = Extract<JobEnd, { reasons: unknown }>["reasons"];

function parkedOf({ parkedCsv }: ToldFile) {
  return parkedCsv === undefined ? {} : { parkedCsv };
}

function write(
  plan: Plan,
  file: string,
  beside: Parameters<typeof importPiecesAct>[0],
  { envelope }: Extract<JobOrder, { what: "bring in file" }>,
  { db, now }: JobSetting,
): Promise<ActOutcome> {
  switch (plan.what) {
    case "pieces":
      return runAct(db, importPiecesAct(beside), { file, pieces: plan.pieces }, envelope, now());
    case "members": {
      const { members, names } = partNames([...plan.planned.fresh, ...plan.planned.changed]);
      return runAct(db, importMembersAct(beside, names), { file, members }, envelope, now());
    }
    case "models": {
      const models = [...plan.planned.fresh, ...plan.planned.changed];
      return runAct(db, importModelsAct(beside), { file, models }, envelope, now());
    }
  }
}
