import { sql } from "kysely";
import type { AccountId, Uuid } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";

export type ImportWhat = "pieces" | "models" | "members";

/** A file on its way in. `bytes` are gone once it was brought in. */
export interface Upload {
  readonly id: Uuid;
  readonly what: ImportWhat;
  readonly name: string;
  readonly by: AccountId;
  readonly madeAt: Date;
  readonly sha256: Buffer;
  readonly columns: Readonly<Record<string, number | null>>;
  readonly preview: unknown;
  readonly hasParked: boolean;
  readonly acceptedAt?: Date;
}

/** A problem of a row, placed and put into words. */
export interface ProblemLine {
  readonly row: number;
  readonly column?: number;
  readonly header?: string;
  readonly code: string;
  readonly value?: string;
  readonly says: string;
}

/** A file that was brought in: when, by whom, and what became of its rows. */
export interface BroughtIn {
  readonly sha256: string;
  readonly name: string;
  readonly what: ImportWhat;
  readonly at: Date;
  readonly by: AccountId;
  readonly accepted: number;
  readonly parked: number;
  readonly act?: Uuid;
}

/** Keeps a file for a day, so that columns can be mapped and the preview looked at; older ones go. */
export async function keepUpload(
  db: Db,
  upload: Pick<Upload, "id" | "what" | "name" | "by" | "sha256"> & { readonly bytes: Uint8Array },
): Promise<void> {
  await sql`delete from import_upload where made_at < now() - interval '1 day'`.execute(db);
  await db
    .insertInto("import_upload")
    .values({ ...upload, bytes: Buffer.from(upload.bytes) })
    .execute();
}

/** Reads an upload without its bytes. */
export async function findUpload(db: Db, id: Uuid): Promise<Upload | undefined> {
  const row = await db
    .selectFrom("import_upload")
    .select(["id", "what", "name", "by", "made_at", "sha256", "columns", "preview", "accepted_at"])
    .select(sql<boolean>`parked_csv is not null`.as("has_parked"))
    .where("id", "=", id)
    .executeTakeFirst();
  return (
    row && {
      ...{ id: row.id as Uuid, what: row.what, name: row.name, by: row.by as AccountId, sha256: row.sha256 },
      ...{ madeAt: row.made_at, preview: row.preview, hasParked: row.has_parked },
      columns: row.columns as Upload["columns"],
      ...(row.accepted_at ? { acceptedAt: row.accepted_at } : {}),
    }
  );
}

/** Reads the bytes of an upload; undefined once they are gone. */
export async function uploadBytes(db: Db, id: Uuid): Promise<Buffer | undefined> {
  const row = await db.selectFrom("import_upload").select("bytes").where("id", "=", id).executeTakeFirst();
  return row?.bytes ?? undefined;
}

/** Keeps what a person says of the columns; what was read before it holds no longer. */
export async function keepColumns(
  db: Db,
  id: Uuid,
  columns: Readonly<Record<string, number | null>>,
): Promise<void> {
  await db
    .updateTable("import_upload")
    .set({ columns: JSON.stringify(columns), preview: null, parked_csv: null })
    .where("id", "=", id)
    .execute();
}

const PROBLEMS_AT_ONCE = 20_000;

/** Keeps what reading a file came to, in place of what was kept before. */
export async function keepPreview(
  tx: Tx,
  id: Uuid,
  preview: {
    readonly summary: unknown;
    readonly parkedCsv?: string;
    readonly problems: readonly ProblemLine[];
  },
): Promise<void> {
  await tx.deleteFrom("import_problem").where("upload", "=", id).execute();
  for (let start = 0; start < preview.problems.length; start += PROBLEMS_AT_ONCE) {
    await insertProblems(tx, id, start, preview.problems.slice(start, start + PROBLEMS_AT_ONCE));
  }
  await tx
    .updateTable("import_upload")
    .set({ preview: JSON.stringify(preview.summary), parked_csv: preview.parkedCsv ?? null })
    .where("id", "=", id)
    .execute();
}

async function insertProblems(tx: Tx, id: Uuid, start: number, lines: readonly ProblemLine[]): Promise<void> {
  const each = <Value>(of: (line: ProblemLine, index: number) => Value) => lines.map(of);
  await sql`insert into import_problem (upload, n, row_number, column_number, header, code, value, says)
    select ${id}::uuid, u.* from unnest(
      ${each((_, index) => start + index + 1)}::int[], ${each(({ row }) => row)}::int[],
      ${each(({ column }) => column ?? null)}::int[], ${each(({ header }) => header ?? null)}::text[],
      ${each(({ code }) => code)}::text[], ${each(({ value }) => value ?? null)}::text[],
      ${each(({ says }) => says)}::text[]) as u`.execute(tx);
}

/** Lists problems in the order of rows and columns, from after the n-th on. */
export async function listProblems(
  db: Db,
  id: Uuid,
  after: number,
  limit: number,
): Promise<readonly (ProblemLine & { readonly n: number })[]> {
  const rows = await db
    .selectFrom("import_problem")
    .selectAll()
    .where("upload", "=", id)
    .where("n", ">", after)
    .orderBy("n")
    .limit(limit)
    .execute();
  return rows.map((row) => ({
    ...{ n: row.n, row: row.row_number, code: row.code, says: row.says },
    ...(row.column_number === null ? {} : { column: row.column_number }),
    ...(row.header === null ? {} : { header: row.header }),
    ...(row.value === null ? {} : { value: row.value }),
  }));
}

/** Reads the parked rows of an upload as a file. */
export async function parkedCsvOf(db: Db, id: Uuid): Promise<string | undefined> {
  const row = await db
    .selectFrom("import_upload")
    .select("parked_csv")
    .where("id", "=", id)
    .executeTakeFirst();
  return row?.parked_csv ?? undefined;
}

/** Takes an upload away with all that was kept of it. */
export async function dropUpload(db: Db, id: Uuid): Promise<void> {
  await db.deleteFrom("import_upload").where("id", "=", id).execute();
}

/** Lets go of the bytes of a file that was brought in. */
export async function closeUpload(db: Db, id: Uuid): Promise<void> {
  await sql`update import_upload set bytes = null, accepted_at = clock_timestamp() where id = ${id}::uuid`.execute(
    db,
  );
}

/**
 * Claims a file for the act that brings it in, inside its transaction. False when the same bytes were brought in
 * before; two acts with one file wait here for each other, and one of them finds that out.
 */
export async function claimFile(
  tx: Tx,
  file: Omit<BroughtIn, "at"> & { readonly parkedCsv?: string },
): Promise<boolean> {
  const { sha256, parkedCsv = null, act = null, ...rest } = file;
  const claimed = await tx
    .insertInto("import_file")
    .values({ ...rest, act, sha256: Buffer.from(sha256, "hex"), parked_csv: parkedCsv })
    .onConflict((conflict) => conflict.doNothing())
    .returning("sha256")
    .executeTakeFirst();
  return claimed !== undefined;
}

/** Finds a file that was brought in, by the hash of its bytes. */
export async function findBroughtIn(db: Db, sha256: Buffer): Promise<BroughtIn | undefined> {
  return (await listFiles(db, { sha256 }))[0];
}

/** Lists the files that were brought in, the newest first. */
export async function listBroughtIn(db: Db, limit: number): Promise<readonly BroughtIn[]> {
  return listFiles(db, { limit });
}

async function listFiles(db: Db, which: { sha256?: Buffer; limit?: number }): Promise<BroughtIn[]> {
  const rows = await db
    .selectFrom("import_file")
    .select(["sha256", "name", "what", "brought_in_at", "by", "accepted", "parked", "act"])
    .$if(which.sha256 !== undefined, (query) => query.where("sha256", "=", which.sha256 ?? Buffer.alloc(0)))
    .orderBy("brought_in_at", "desc")
    .limit(which.limit ?? 1)
    .execute();
  return rows.map((row) => ({
    ...{ sha256: row.sha256.toString("hex"), name: row.name, what: row.what as ImportWhat },
    ...{ at: row.brought_in_at, by: row.by as AccountId, accepted: row.accepted, parked: row.parked },
    ...(row.act === null ? {} : { act: row.act as Uuid }),
  }));
}

/** Reads the parked rows of a file that was brought in. */
export async function parkedCsvOfFile(db: Db, sha256: Buffer): Promise<string | undefined> {
  const row = await db
    .selectFrom("import_file")
    .select("parked_csv")
    .where("sha256", "=", sha256)
    .executeTakeFirst();
  return row?.parked_csv ?? undefined;
}
