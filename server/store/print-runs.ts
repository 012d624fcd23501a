import { sql } from "kysely";
import type { AccountId, PieceId, Uuid } from "../domain/ids.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { TagState } from "../domain/tags/tag-state.ts";
import type { MadeOn } from "../domain/time.ts";
import type { Db } from "./db.ts";

/** What a print run was asked to be. */
export interface PrintRun {
  readonly id: Uuid;
  readonly by: AccountId;
  readonly what: "tags" | "cards";
  readonly stock: string;
  readonly dpi: number;
  readonly words: string;
  readonly count: number;
}

/** A print run as it stands: its numbers, and how many of its tags are in which state. */
export interface PrintRunOnRecord extends PrintRun {
  readonly madeAt: Date;
  readonly states: Readonly<Partial<Record<TagState["status"], number>>>;
  readonly files: readonly { readonly n: number; readonly count: number; readonly bytes: number }[];
}

/** A number of a run, with the piece that it was reserved for. */
export interface RunTag {
  readonly number: TagNumber;
  readonly status: TagState["status"];
  readonly meantFor?: PieceId;
}

/** What a tag may say of its piece, and what a person calls the piece by. */
export interface PieceToPrint {
  readonly id: PieceId;
  readonly kind: { readonly name: string; readonly family: string; readonly layer?: string };
  readonly modelName?: string;
  readonly linerCode?: string;
  readonly size?: string;
  readonly madeOn?: MadeOn;
  readonly serial?: string;
}

/**
 * Puts a run on record before its first number is reserved, so that it can be asked for from then on. False when it was
 * there already: the same request sent twice.
 */
export async function insertRun(db: Db, { count, ...run }: PrintRun): Promise<boolean> {
  await sql`delete from print_file where made_at < now() - interval '7 days'`.execute(db);
  const fresh = await db
    .insertInto("print_run")
    .values({ ...run, label_count: count })
    .onConflict((conflict) => conflict.doNothing())
    .returning("id")
    .executeTakeFirst();
  return fresh !== undefined;
}

/** Keeps the numbers of a run in the order of its labels. */
export async function keepRunNumbers(db: Db, id: Uuid, numbers: readonly TagNumber[]): Promise<void> {
  await db
    .updateTable("print_run")
    .set({ numbers: [...numbers], label_count: numbers.length })
    .where("id", "=", id)
    .execute();
}

/** Reads the numbers that a run was drawn with, else those that were reserved for it, in the order of its pieces. */
export async function runNumbers(db: Db, id: Uuid): Promise<TagNumber[]> {
  const row = await db.selectFrom("print_run").select("numbers").where("id", "=", id).executeTakeFirst();
  if (row && row.numbers.length > 0) return row.numbers as TagNumber[];
  const reserved = await db
    .selectFrom("tag as t")
    .innerJoin("entry as e", (join) => join.onRef("e.subject", "=", "t.id").on("e.version", "=", 1))
    .select("t.number")
    .where("t.run", "=", id)
    .orderBy("e.n")
    .execute();
  return reserved.map(({ number }) => number as TagNumber);
}

/** Reads what became of numbers, in their order. */
export async function tagsByNumber(db: Db, numbers: readonly TagNumber[]): Promise<RunTag[]> {
  const found = await sql<{ number: TagNumber; status: TagState["status"]; meant_for: PieceId | null }>`
    select t.number, t.state as status, t.meant_for
    from unnest(${numbers}::text[]) with ordinality w(number, n) join tag t using (number) order by w.n`.execute(
    db,
  );
  return found.rows.map(({ number, status, meant_for }) => {
    return { number, status, ...(meant_for ? { meantFor: meant_for } : {}) };
  });
}

/** Reads what tags may say of pieces, in the order asked; a piece that nobody knows is left out. */
export async function piecesToPrint(db: Db, ids: readonly PieceId[]): Promise<PieceToPrint[]> {
  const found = await sql<{
    id: PieceId;
    name: string;
    family: string;
    layer: string | null;
    model_name: string | null;
    liner_code: string | null;
    size: string | null;
    made_on: string | null;
    serial: string | null;
  }>`select p.id, k.name, k.family, k.layer, p.model_name, p.liner_code, p.size, p.made_on, p.serial
    from unnest(${ids}::uuid[]) with ordinality w(id, n) join piece p using (id) join kind k on k.code = p.kind
    order by w.n`.execute(db);
  return found.rows.map((row) => ({
    id: row.id,
    kind: { name: row.name, family: row.family, ...(row.layer ? { layer: row.layer } : {}) },
    ...(row.model_name ? { modelName: row.model_name } : {}),
    ...(row.liner_code ? { linerCode: row.liner_code } : {}),
    ...(row.size ? { size: row.size } : {}),
    ...(row.made_on ? { madeOn: row.made_on as MadeOn } : {}),
    ...(row.serial ? { serial: row.serial } : {}),
  }));
}

/** Reads one run as it stands. */
export async function findRun(db: Db, id: Uuid): Promise<PrintRunOnRecord | undefined> {
  return (await readRuns(db, { id }))[0];
}

/** Lists runs, the newest first. */
export async function listRuns(db: Db, limit: number): Promise<PrintRunOnRecord[]> {
  return readRuns(db, { limit });
}

interface RunRow {
  readonly id: Uuid;
  readonly by: AccountId;
  readonly what: "tags" | "cards";
  readonly stock: string;
  readonly dpi: number;
  readonly words: string;
  readonly count: number;
  readonly made_at: Date;
  readonly states: PrintRunOnRecord["states"] | null;
  readonly files: PrintRunOnRecord["files"] | null;
}

async function readRuns(db: Db, which: { id?: Uuid; limit?: number }): Promise<PrintRunOnRecord[]> {
  const only = which.id ? sql`where id = ${which.id}::uuid` : sql``;
  const found = await sql<RunRow>`
    select r.id, r.by, r.what, r.stock, r.dpi, r.words, r.label_count as count, r.made_at,
      (select jsonb_object_agg(s.state, s.count) from (
        select t.state, count(*) from tag t where t.number = any(r.numbers) group by t.state) s) as states,
      (select jsonb_agg(jsonb_build_object('n', f.n, 'count', f.label_count, 'bytes', length(f.bytes)) order by f.n)
        from print_file f where f.run = r.id) as files
    from (select * from print_run ${only} order by made_at desc limit ${which.limit ?? 1}) r
    order by r.made_at desc`.execute(db);
  return found.rows.map(({ made_at, states, files, ...run }) => {
    return { ...run, madeAt: made_at, states: states ?? {}, files: files ?? [] };
  });
}

/** Keeps a drawn file that was read back. */
export async function keepPrintFile(
  db: Db,
  run: Uuid,
  file: { readonly n: number; readonly count: number; readonly bytes: Uint8Array },
): Promise<void> {
  const { n, count, bytes } = file;
  await db
    .insertInto("print_file")
    .values({ run, n, label_count: count, bytes: Buffer.from(bytes) })
    .onConflict((conflict) =>
      conflict.columns(["run", "n"]).doUpdateSet({ label_count: count, bytes: Buffer.from(bytes) }),
    )
    .execute();
}

/** Reads a drawn file; undefined when it was never drawn, or is older than a week. */
export async function printFileBytes(db: Db, run: Uuid, n: number): Promise<Buffer | undefined> {
  const row = await db
    .selectFrom("print_file")
    .select("bytes")
    .where("run", "=", run)
    .where("n", "=", n)
    .executeTakeFirst();
  return row?.bytes;
}
