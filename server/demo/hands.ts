import { type Act, type ActOutcome, runAct } from "../cases/run-act.ts";
import type { AccountId, ActId, PieceId, PlaceId } from "../domain/ids.ts";
import type { Role } from "../domain/register/account.ts";
import type { Instant } from "../domain/time.ts";
import type { Db } from "../store/db.ts";
import type { DemoClock } from "./clock.ts";
import { OFFSET_MIN } from "./harrow-county.ts";
import type { Chance } from "./seeded.ts";

/** Who acts in the demo, and the world that they act on. */
export interface Demo {
  readonly db: Db;
  readonly clock: DemoClock;
  readonly chance: Chance;
  readonly onAct: () => void;
}

export interface Worker {
  readonly account: AccountId;
  readonly role: Role;
}

/** Options of one act: when it happened, where it differs from when it is written down. */
interface When {
  readonly at?: number;
}

/** Lets somebody act at the demo's moment. Throws when the domain refuses: a demo that contradicts itself is a fault. */
export async function must<Command>(
  demo: Demo,
  worker: Worker,
  act: Act<Command>,
  command: Command,
  when: When = {},
): Promise<void> {
  const outcome = await attempt(demo, worker, act, command, when);
  if ("refusals" in outcome) {
    throw new Error(`The demo's ${act.name} was refused: ${JSON.stringify(outcome.refusals.slice(0, 3))}`);
  }
}

let sequence = 0;

/** Lets somebody try an act; a refusal is part of the story. */
export async function attempt<Command>(
  { db, clock, chance, onAct }: Demo,
  worker: Worker,
  act: Act<Command>,
  command: Command,
  { at }: When = {},
): Promise<ActOutcome> {
  const now = clock.now();
  const moment = (at ?? now) as Instant;
  sequence += 1;
  const outcome = await runAct(
    db,
    act,
    command,
    {
      id: chance.id<ActId>(now),
      by: worker.account,
      role: worker.role,
      device: "bench-1",
      deviceSeq: sequence,
      appBuild: "demo",
      at: moment,
      atOffsetMin: OFFSET_MIN,
      sentAt: now as Instant,
    },
    now,
  );
  onAct();
  return outcome;
}

export const scanned = (...pieces: readonly PieceId[]) =>
  pieces.map((piece) => ({ piece, evidence: "scanned" as const }));
export const atPlace = (id: PlaceId) => ({ kind: "place" as const, id });
