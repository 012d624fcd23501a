import { randomUUID } from "node:crypto";
import { kyselyOn, openPool } from "../../../db/connect.ts";
import { movePiecesAct } from "../../../server/cases/bench-acts.ts";
import { runAct } from "../../../server/cases/run-act.ts";
import type { AccountId, ActId, PieceId, PlaceId } from "../../../server/domain/ids.ts";
import type { Instant } from "../../../server/domain/time.ts";
import { uuidV7 } from "../../../server/ledger/uuid-v7.ts";
import { hand } from "./hand.ts";
import { openProduct, type ProductAddress } from "./product-client.ts";

/** Moves and plain inserts by turns, from a process that does nothing else. */
export interface MovingPlan extends ProductAddress {
  readonly appUrl: string;
  readonly by: AccountId;
  /** Loose pieces, and places that they go between; none is at one of them. */
  readonly pieces: readonly PieceId[];
  readonly places: readonly PlaceId[];
  /** The body of an entry as a move writes it, in base64. */
  readonly body: string;
  readonly rounds: readonly MovingRound[];
}

/** So many clients at once, each with the next act when the last is written. */
export interface MovingRound {
  /** Acts as the server runs them, the same through the running server, or one row a commit into a plain table. */
  readonly what: "acts" | "acts over HTTP" | "plain inserts";
  readonly clients: number;
  readonly piecesAnAct: number;
  readonly seconds: number;
}

/** How long each act or insert took, in milliseconds. */
export interface Moved {
  readonly waits: readonly number[];
  readonly seconds: number;
}

await hand<MovingPlan, readonly Moved[]>(async ({ appUrl, by, pieces, places, rounds, ...plan }) => {
  const pool = openPool(appUrl, { max: 16, applicationName: "bench" });
  const db = kyselyOn(pool);
  const product = openProduct(plan);
  const body = Buffer.from(plan.body, "base64");
  const isAt = new Map<PieceId, PlaceId>();
  let count = 0;

  const insertPlainly = () =>
    pool.query("insert into bench_plain values ($1, $2, $3, $4, $5, $6, $7)", [
      ...[randomUUID(), 1, "piece", randomUUID(), 1, "PieceMoved", body],
    ]);
  const move = async (moved: readonly PieceId[], isOverHttp: boolean) => {
    const to = places.find((place) => moved.every((piece) => isAt.get(piece) !== place));
    if (!to) throw new Error("There is no place that none of the pieces is at.");
    const at = Date.now() as Instant;
    const sent = {
      id: uuidV7(at) as string as ActId,
      device: "bench",
      deviceSeq: count++,
      appBuild: "bench",
    };
    const command = {
      pieces: moved.map((piece) => ({ piece, evidence: "scanned" as const })),
      ...{ to: { kind: "place" as const, id: to }, purpose: "transfer" as const },
    };
    if (isOverHttp) {
      const now = new Date(at).toISOString();
      await product.post("/api/acts/movePieces", { ...sent, at: now, atOffsetMin: 0, sentAt: now, command });
    } else {
      const envelope = { ...sent, by, role: "technician", at, atOffsetMin: 0, sentAt: at } as const;
      const outcome = await runAct(db, movePiecesAct, command, envelope);
      if ("refusals" in outcome) throw new Error(`Not moved: ${JSON.stringify(outcome.refusals)}`);
    }
    for (const piece of moved) isAt.set(piece, to);
  };
  const work = async ({ what, clients, piecesAnAct, seconds }: MovingRound): Promise<Moved> => {
    const waits: number[] = [];
    const started = performance.now();
    const share = Math.floor(pieces.length / clients);
    const workAs = async (client: number) => {
      const own = pieces.slice(client * share, (client + 1) * share);
      for (let start = 0; performance.now() - started < seconds * 1_000; start += piecesAnAct) {
        if (start + piecesAnAct > own.length) start = 0;
        const from = performance.now();
        if (what === "plain inserts") await insertPlainly();
        else await move(own.slice(start, start + piecesAnAct), what === "acts over HTTP");
        waits.push(performance.now() - from);
      }
    };
    await Promise.all(Array.from({ length: clients }, (_, client) => workAs(client)));
    return { waits, seconds: (performance.now() - started) / 1_000 };
  };

  const moved: Moved[] = [];
  for (const round of rounds) moved.push(await work(round));
  product.close();
  await db.destroy();
  return moved;
});
