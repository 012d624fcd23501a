import { type Act, type ActOutcome, runAct } from "../../server/cases/run-act.ts";
import type { AccountId, ActId, PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import type { Role } from "../../server/domain/register/account.ts";
import type { PieceDraft } from "../../server/domain/register/register-pieces.ts";
import type { Instant } from "../../server/domain/time.ts";
import { uuidV7 } from "../../server/ledger/uuid-v7.ts";
import type { Db } from "../../server/store/db.ts";

/** Somebody at a bench who acts on a department's database; time goes on by a second an act, unless it is given. */
export interface Actor {
  readonly by: AccountId;
  act<Command>(act: Act<Command>, command: Command, at?: string): Promise<ActOutcome>;
  /** Acts and throws unless it was written. */
  must<Command>(act: Act<Command>, command: Command, at?: string): Promise<void>;
  /** Acts and gives the codes of the refusals, in their order; throws when it was written. */
  refusalsOf<Command>(act: Act<Command>, command: Command, at?: string): Promise<string[]>;
}

export function anId<Id extends Uuid>(): Id {
  return uuidV7(Date.UTC(2026, 0, 1)) as Id;
}

/** Opens an actor on a database; `db` is asked for at each act, so that it may be opened in a hook. */
export function actor(
  db: () => Db,
  role: Role = "program manager",
  startsAt = "2026-03-02T09:00:00Z",
): Actor {
  let clock = Date.parse(startsAt);
  const by = anId<AccountId>();
  let sequence = 0;
  async function act<Command>(one: Act<Command>, command: Command, at?: string): Promise<ActOutcome> {
    clock += 1000;
    const moment = (at === undefined ? clock : Date.parse(at)) as Instant;
    sequence += 1;
    const envelope = {
      id: anId<ActId>(),
      by,
      role,
      device: "bench-1",
      deviceSeq: sequence,
      appBuild: "test",
      at: moment,
      atOffsetMin: -360,
      sentAt: moment,
    };
    return runAct(db(), one, command, envelope);
  }
  return {
    by,
    act,
    async must(one, command, at) {
      const outcome = await act(one, command, at);
      if ("refusals" in outcome)
        throw new Error(`${one.name} was refused: ${JSON.stringify(outcome.refusals)}`);
    },
    async refusalsOf(one, command, at) {
      const outcome = await act(one, command, at);
      if ("written" in outcome) throw new Error(`${one.name} was written and should have been refused.`);
      return outcome.refusals.map(({ code }) => code);
    },
  };
}

/** A piece on its way into the register, with what does not matter to a test left usual. */
export function aDraft(
  kind: string,
  place: PlaceId,
  label: MakersLabel = {},
  id = anId<PieceId>(),
): PieceDraft {
  const usual: MakersLabel = { maker: "Tarnholt", modelName: "K7", size: "46 32 R", pattern: "M" };
  return {
    id,
    kind,
    label: { ...usual, ...label },
    reading: "read",
    file: { owner: { kind: "department" } },
    holder: { kind: "place", id: place },
  };
}
