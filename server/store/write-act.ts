import { type RawBuilder, sql } from "kysely";
import type { Instant } from "../domain/time.ts";
import type { ActHeader } from "../ledger/chain.ts";
import {
  insertEntries,
  insertTexts,
  type Linked,
  linkAct,
  type PlacedEntry,
  type SealedEntries,
  sealEntries,
} from "./append-act.ts";
import { chainSteps, type Step } from "./chained-steps.ts";
import type { Tx } from "./db.ts";
import { inChunks, type OnWritten } from "./in-chunks.ts";
import { type ProjectionWrite, writeRows } from "./write-projections.ts";

/** All that an act writes, computed. */
export interface ActRows {
  readonly header: ActHeader;
  readonly placed: readonly PlacedEntry[];
  readonly writes: readonly ProjectionWrite[];
  readonly nowMs: number;
}

/** Up to so many entries an act is written in one statement; its parts then take a few hundred milliseconds at most. */
const AT_ONCE = 1_000;

/** Writes entries, their texts, the rows that follow and the act itself, and tells its place in the chain. */
export async function writeRowsOfAct(
  tx: Tx,
  rows: ActRows,
  onWritten?: OnWritten,
): Promise<{ position: number; recordedAt: Instant }> {
  const sealed = sealEntries(rows.placed);
  const isLarge = rows.placed.length > AT_ONCE || onWritten !== undefined;
  const linked = await (isLarge ? writeInChunks(tx, rows, sealed, onWritten) : writeAtOnce(tx, rows, sealed));
  if (!linked) throw new Error("The ledger has no head: the database was not migrated.");
  return { position: Number(linked.position), recordedAt: linked.recorded_at.getTime() as Instant };
}

/** In one round trip: what an ordinary act costs is mostly the number of times that it asks and waits. */
async function writeAtOnce(
  tx: Tx,
  { header, writes, nowMs }: ActRows,
  sealed: SealedEntries,
): Promise<Linked | undefined> {
  const { texts } = sealed;
  const steps: Step[] = [
    () => insertEntries(header.id, sealed, 0),
    ...(texts.length > 0 ? [() => insertTexts(texts)] : []),
    ...writes.map(
      (write): Step =>
        (areDone) =>
          writeRows(write, areDone),
    ),
  ];
  const shape = [texts.length > 0 ? "texts" : "", ...writes.map(({ doing, table }) => `${doing} ${table}`)];
  return run(tx, shape.join(), linkAct(header, sealed.hashes, nowMs, chainSteps(steps)));
}

/** An act of thousands of rows tells how far it is, and lets others have the processor between its statements. */
async function writeInChunks(
  tx: Tx,
  { header, placed, writes, nowMs }: ActRows,
  { bytes, hashes, texts }: SealedEntries,
  onWritten: OnWritten | undefined,
): Promise<Linked | undefined> {
  await inChunks(placed, onWritten, async (chunk, start) => {
    const part = { placed: chunk, bytes: bytes.slice(start, start + chunk.length) };
    await run(tx, "entries", insertEntries(header.id, part, start));
  });
  await inChunks(texts, undefined, async (chunk) => {
    await run(tx, "texts", insertTexts(chunk));
  });
  for (const { doing, table, rows } of writes) {
    const told = doing === "insert" ? onWritten : undefined;
    await inChunks(rows, told, async (chunk) => {
      await run(tx, `${doing} ${table}`, writeRows({ doing, table, rows: chunk }));
    });
  }
  return run(tx, "link", linkAct(header, hashes, nowMs));
}

/** Numbers of the shapes that acts have had in this process. Statements of one shape are one text. */
const SHAPES = new Map<string, number>();

/** Runs a statement that each connection plans once for its shape. */
async function run<Row>(tx: Tx, shape: string, statement: RawBuilder<Row>): Promise<Row | undefined> {
  const number = SHAPES.get(shape) ?? SHAPES.size + 1;
  SHAPES.set(shape, number);
  const prepared = sql.raw(`/* prepared: write-act-${number} */`);
  const { rows } = await sql<Row>`${prepared} ${statement}`.execute(tx);
  return rows[0];
}
