import { sql } from "kysely";
import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  movePiecesAct,
  recordCleaningAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { type Act, type ActEnvelope, type ActOutcome, runAct } from "../../server/cases/run-act.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { AccountId, ActId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { Instant } from "../../server/domain/time.ts";
import { linkHash } from "../../server/ledger/chain.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let department: Department;
beforeAll(async () => {
  department = await openDepartment(() => database.app);
});

const NOON = Date.parse("2026-03-02T12:00:00Z") as Instant;
function anEnvelope(change: Partial<ActEnvelope> = {}): ActEnvelope {
  return {
    ...{
      id: anId<ActId>(),
      by: department.inez.by,
      role: "program manager",
      device: "bench-2",
      deviceSeq: 1,
    },
    ...{ appBuild: "test", at: NOON, atOffsetMin: 0, sentAt: NOON },
    ...change,
  };
}
const send = <Command>(act: Act<Command>, command: Command, envelope: ActEnvelope) =>
  runAct(database.app, act, command, envelope);
const written = (outcome: ActOutcome) => {
  if ("refusals" in outcome) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.written;
};
const refusals = (outcome: ActOutcome) => ("refusals" in outcome ? outcome.refusals : []);
async function register(kind: string, label = {}): Promise<PieceId> {
  const draft = aDraft(kind, department.rack, label);
  await department.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}
const toBench = (...pieces: PieceId[]) => ({
  pieces: scanned(...pieces),
  to: { kind: "place" as const, id: department.bench },
  purpose: "transfer" as const,
});
const counts = async () =>
  (
    await sql`select (select count(*) from act) as acts, (select count(*) from entry) as entries,
      (select position from ledger_head) as position`.execute(database.app)
  ).rows[0];

describe("an act sent twice", () => {
  test("writes once, and is answered with the first result", async () => {
    const hood = await register("hood");
    const envelope = anEnvelope();
    const first = written(await send(movePiecesAct, toBench(hood), envelope));
    const after = await counts();
    expect(written(await send(movePiecesAct, toBench(hood), envelope))).toEqual(first);
    expect(await counts()).toEqual(after);
  });

  test("writes once when both come at the same moment, eight times over, and all are answered alike", async () => {
    for (let round = 0; round < 10; round += 1) {
      const hood = await register("hood");
      const envelope = anEnvelope();
      const sendings = Array.from({ length: 8 }, () => send(movePiecesAct, toBench(hood), envelope));
      const answers = (await Promise.all(sendings)).map(written);
      for (const answer of answers) expect(answer).toEqual(answers[0]);
      const rows = await database.app
        .selectFrom("entry")
        .select("version")
        .where("subject", "=", hood)
        .execute();
      expect(rows).toHaveLength(2);
    }
  });

  test("writes once when it registers what nobody can lock yet", async () => {
    const draft = aDraft("hood", department.rack);
    const command = { pieces: [draft], evidence: "typed" as const };
    const envelope = anEnvelope();
    const sendings = Array.from({ length: 8 }, () => send(registerPiecesAct, command, envelope));
    const answers = (await Promise.all(sendings)).map(written);
    expect(new Set(answers.map(({ position }) => position)).size).toBe(1);
  });

  test("is answered with the first result even when it could not be written any more", async () => {
    const hood = await register("hood");
    const envelope = anEnvelope();
    const relied = { kind: "place" as const, id: department.rack };
    const command = {
      ...toBench(),
      pieces: [{ piece: hood, evidence: "scanned" as const, reliedOn: { holder: relied } }],
    };
    const first = written(await send(movePiecesAct, command, envelope));
    expect(written(await send(movePiecesAct, command, envelope))).toEqual(first);
    expect(refusals(await send(movePiecesAct, command, anEnvelope())).map(({ code }) => code)).toContain(
      "changed",
    );
  });

  test("is refused under its id as another command or as another person's", async () => {
    const hood = await register("hood");
    const envelope = anEnvelope();
    written(await send(movePiecesAct, toBench(hood), envelope));
    const other = { pieces: scanned(hood), how: "advanced cleaning" as const };
    const stranger = { ...envelope, by: anId<AccountId>() };
    const refused = [{ code: "repeated-id", act: envelope.id }];
    expect(refusals(await send(recordCleaningAct, other, envelope))).toEqual(refused);
    expect(refusals(await send(movePiecesAct, toBench(hood), stranger))).toEqual(refused);
  });
});

test("a refused act leaves no row and no gap in the positions", async () => {
  const before = await counts();
  const unknown = anId<PieceId>();
  expect(refusals(await send(movePiecesAct, toBench(unknown), anEnvelope()))).toHaveLength(1);
  const hood = await register("hood");
  const { position } = written(await send(movePiecesAct, toBench(hood), anEnvelope()));
  expect(position).toBe((before as { position: number }).position + 2);
});

describe("two benches at once", () => {
  test("on one liner: one installs it, the other is told in which shell it is", async () => {
    for (let round = 0; round < 10; round += 1) {
      const shells = [await register("coat-shell"), await register("coat-shell")] as const;
      const layer = await register("coat-liner", { linerCode: "LK-2" });
      const outcomes = await Promise.all(
        shells.map((shell) => send(installLayerAct, { shell, layer, evidence: "scanned" }, anEnvelope())),
      );
      const winner = outcomes.findIndex((outcome) => "written" in outcome);
      expect(outcomes.filter((outcome) => "written" in outcome)).toHaveLength(1);
      expect(outcomes.flatMap(refusals)).toEqual([
        { code: "fitted-elsewhere", subject: layer, shell: shells[winner] },
      ]);
    }
  });

  test("on one shell: one of two liners goes in, the other bench is told which one is there", async () => {
    for (let round = 0; round < 10; round += 1) {
      const shell = await register("coat-shell");
      const layers = [
        await register("coat-liner", { linerCode: "LK-2" }),
        await register("coat-liner", { linerCode: "LK-2" }),
      ];
      const outcomes = await Promise.all(
        layers.map((layer) => send(installLayerAct, { shell, layer, evidence: "scanned" }, anEnvelope())),
      );
      const winner = outcomes.findIndex((outcome) => "written" in outcome);
      expect(outcomes.filter((outcome) => "written" in outcome)).toHaveLength(1);
      expect(outcomes.flatMap(refusals)).toMatchObject([
        { code: "place-in-shell-taken", by: layers[winner] },
      ]);
    }
  });

  test("on one piece that both saw on the rack: one moves it, the other is told where it is now", async () => {
    const hood = await register("hood");
    const rack = { kind: "place" as const, id: department.rack };
    const away = anId<PlaceId>();
    await department.inez.must(namePlaceAct, {
      id: away,
      name: "Locker 9",
      what: "locker",
      carries: "apart",
    });
    const targets = [department.bench, away];
    const outcomes = await Promise.all(
      targets.map((id) =>
        send(
          movePiecesAct,
          {
            pieces: [{ piece: hood, evidence: "scanned" as const, reliedOn: { holder: rack } }],
            to: { kind: "place", id },
            purpose: "transfer",
          },
          anEnvelope(),
        ),
      ),
    );
    const winner = outcomes.findIndex((outcome) => "written" in outcome);
    expect(outcomes.flatMap(refusals)).toEqual([
      {
        code: "changed",
        subject: hood,
        what: "holder",
        was: rack,
        is: { kind: "place", id: targets[winner] },
      },
    ]);
  });
});

test("an install recorded late, into a place that another liner has since, is refused with that liner's name", async () => {
  const shell = await register("coat-shell");
  const [now, late] = [
    await register("coat-liner", { linerCode: "LK-2" }),
    await register("coat-liner", { linerCode: "LK-2" }),
  ] as const;
  written(await send(installLayerAct, { shell, layer: now, evidence: "scanned" }, anEnvelope()));
  const earlier = anEnvelope({ at: (NOON - 60_000) as Instant });
  const outcome = await send(installLayerAct, { shell, layer: late, evidence: "scanned" }, earlier);
  expect(refusals(outcome)).toEqual([{ code: "place-in-shell-taken", subject: late, shell, by: now }]);
});

test("a liner recorded late into a time in which another was in that shell is refused, with that time", async () => {
  const shell = await register("coat-shell");
  const [was, late] = [
    await register("coat-liner", { linerCode: "LK-2" }),
    await register("coat-liner", { linerCode: "LK-2" }),
  ] as const;
  const from = (NOON - 3 * 60_000) as Instant;
  const to = (NOON - 60_000) as Instant;
  written(await send(installLayerAct, { shell, layer: was, evidence: "scanned" }, anEnvelope({ at: from })));
  const apart = { pieces: [{ piece: was, evidence: "scanned" as const }] };
  written(await send(separateLayersAct, apart, anEnvelope({ at: to })));
  const before = anEnvelope({ at: (from - 60_000) as Instant });
  const outcome = await send(installLayerAct, { shell, layer: late, evidence: "scanned" }, before);
  const taken = { code: "place-in-shell-taken", subject: late, shell, by: was, from, to };
  expect(refusals(outcome)).toEqual([taken]);
});

test("of two benches that register one serial at once, one does and the other is told which piece has it", async () => {
  for (let round = 0; round < 5; round += 1) {
    const serial = `T-${round}`;
    const drafts = [aDraft("hood", department.rack, { serial }), aDraft("hood", department.rack, { serial })];
    const outcomes = await Promise.all(
      drafts.map((draft) => send(registerPiecesAct, { pieces: [draft], evidence: "typed" }, anEnvelope())),
    );
    const winner = drafts[outcomes.findIndex((outcome) => "written" in outcome)];
    expect(outcomes.flatMap(refusals)).toMatchObject([{ code: "serial-taken", by: winner?.id, serial }]);
  }
});

test("positions have no gap and follow each other under sixteen writers at once", async () => {
  const hoods: PieceId[] = [];
  for (let count = 0; count < 16; count += 1) hoods.push(await register("hood"));
  await Promise.all(hoods.map((hood) => send(movePiecesAct, toBench(hood), anEnvelope())));
  const { rows } = await sql<{ acts: number; last: number }>`
    select count(*) as acts, max(position) as last from act`.execute(database.app);
  expect(rows[0]?.acts).toBe(rows[0]?.last);
});

test("the database links an act with the hash that is computed here", async () => {
  const acts = await database.app.selectFrom("act").selectAll().orderBy("position").execute();
  expect(acts.length).toBeGreaterThan(20);
  for (const act of acts) {
    expect(linkHash(act.prev, act.position, act.digest, act.recorded_at.getTime())).toEqual(act.hash);
  }
});

test("after all of this the ledger verifies", async () => {
  expect((await verifyLedger(database.app)).findings).toEqual([]);
});
