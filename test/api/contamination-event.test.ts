import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  liftHoldAct,
  movePiecesAct,
  recordCleaningAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import {
  changeEventAct,
  correctEventAct,
  openEventAct,
  ruleContaminantAct,
} from "../../server/cases/event-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import { ruleOf } from "../../server/domain/contamination/contaminant-rule.ts";
import { STARTING_CONTAMINANTS } from "../../server/domain/contamination/starting-contaminants.ts";
import type { EventId, PieceId } from "../../server/domain/ids.ts";
import type { HowCleaned } from "../../server/domain/pieces/piece-entries.ts";
import type { Instant } from "../../server/domain/time.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const tobin = actor(() => database.app, "technician", "2026-03-02T14:00:00Z");
const rosalind = actor(() => database.app, "program manager", "2026-03-02T14:00:00Z");
let department: Department;

const at = (time: string) => Date.parse(`2026-03-02T${time}Z`) as Instant;
const aFire = (kinds: readonly string[] = ["fire-products"]) => ({
  name: "the Kettle Yard fire",
  from: at("10:00:00"),
  to: at("11:30:00"),
  incident: "26-0117",
  kinds,
});

async function register(kind: string): Promise<PieceId> {
  const draft = aDraft(kind, department.rack, { linerCode: "LK-2" });
  await department.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}
async function fireWith(
  pieces: readonly PieceId[],
  kinds?: readonly string[],
  evidence: "presumed" | "scanned" = "presumed",
): Promise<EventId> {
  const id = anId<EventId>();
  await tobin.must(openEventAct, {
    id,
    event: aFire(kinds),
    members: [],
    pieces: pieces.map((piece) => ({ piece, evidence })),
  });
  return id;
}
const met = (event: EventId) =>
  database.app.selectFrom("piece_met").select(["piece", "evidence"]).where("event", "=", event).execute();
const standing = async (piece: PieceId) =>
  (
    await database.app
      .selectFrom("hold")
      .select(["hold_kind", "event"])
      .where("piece", "=", piece)
      .where("lifted_at", "is", null)
      .execute()
  ).map(({ event }) => event);
const clean = (piece: PieceId, how: HowCleaned = "advanced cleaning") =>
  tobin.must(recordCleaningAct, { pieces: scanned(piece), how: how as "advanced cleaning" });

beforeAll(async () => {
  department = await openDepartment(() => database.app);
});

describe("an event that is opened", () => {
  test("holds its pieces, and the layers that were in a shell then, however they are fitted now", async () => {
    const [shell, liner] = [await register("coat-shell"), await register("coat-liner")];
    await department.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    await tobin.must(separateLayersAct, { pieces: scanned(liner) });
    const event = await fireWith([shell], undefined, "scanned");
    expect(await met(event)).toEqual(
      expect.arrayContaining([
        { piece: shell, evidence: "scanned" },
        { piece: liner, evidence: "with its set" },
      ]),
    );
    expect([await standing(shell), await standing(liner)]).toEqual([[event], [event]]);
  });

  test("knows a presumed layer by the shell that somebody scanned there", async () => {
    const [shell, liner] = [await register("coat-shell"), await register("coat-liner")];
    await department.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    const id = anId<EventId>();
    const pieces = [
      { piece: shell, evidence: "scanned" as const },
      { piece: liner, evidence: "presumed" as const },
    ];
    await tobin.must(openEventAct, { id, event: aFire(), members: [], pieces });
    expect(await met(id)).toContainEqual({ piece: liner, evidence: "with its set" });
  });

  test("stops an issue with the event's hold, and never the record of where a piece is", async () => {
    const hood = await register("hood");
    const event = await fireWith([hood]);
    const to = { kind: "member" as const, id: department.corwin };
    const outcome = await tobin.act(movePiecesAct, { pieces: scanned(hood), to, purpose: "issue" });
    expect("refusals" in outcome && outcome.refusals).toMatchObject([
      { code: "held", hold: "contamination", event },
    ]);
    const bench = { kind: "place" as const, id: department.bench };
    await tobin.must(movePiecesAct, { pieces: scanned(hood), to: bench, purpose: "transfer" });
  });

  test("is refused for an interval that ends before it begins and for a kind without a rule, at once", async () => {
    const event = { ...aFire(["paint"]), to: at("09:00:00") };
    const command = { id: anId<EventId>(), event, members: [], pieces: [] };
    expect(await tobin.refusalsOf(openEventAct, command)).toEqual([
      "ends-before-it-begins",
      "unknown-contaminant",
    ]);
  });

  test("gives no hold to a piece that was cleaned since by what the policy accepts", async () => {
    const hood = await register("hood");
    await clean(hood);
    const event = await fireWith([hood]);
    expect([(await met(event)).length, await standing(hood)]).toEqual([1, []]);
  });
});

describe("a cleaning after the event", () => {
  test("ends the hold by itself where the rule accepts it", async () => {
    const hood = await register("hood");
    await fireWith([hood]);
    await clean(hood);
    expect(await standing(hood)).toEqual([]);
  });

  test("leaves it where the rule does not, and the cleaning says what is left open", async () => {
    const hood = await register("hood");
    const event = await fireWith([hood], ["fire-products", "chemical"]);
    await clean(hood);
    expect(await standing(hood)).toEqual([event]);
    const [told] = await database.app
      .selectFrom("entry")
      .select("bytes")
      .where("subject", "=", hood)
      .where("kind", "=", "PieceCleaned")
      .execute();
    expect(JSON.parse(told?.bytes.toString() ?? "")).toMatchObject({ leavesOpen: ["chemical"] });
  });

  test("ends nothing by a value that the department has not set, until it sets it", async () => {
    const [hood, second] = [await register("hood"), await register("hood")];
    const kinds = ["blood-or-body-fluid"];
    const [event] = [await fireWith([hood], kinds), await fireWith([second], kinds)];
    await clean(hood, "specialised cleaning");
    expect(await standing(hood)).toEqual([event]);
    const rule = ruleOf(STARTING_CONTAMINANTS, "blood-or-body-fluid");
    const endedBy = { says: ["specialised cleaning" as const], source: "procedure 12", confirmed: true };
    await rosalind.must(ruleContaminantAct, { rule: { ...rule, endedBy } });
    await clean(second, "specialised cleaning");
    expect(await standing(second)).toEqual([]);
  });

  test("that is not recorded leaves the hold to the program manager", async () => {
    const hood = await register("hood");
    await fireWith([hood]);
    const version = (
      await database.app.selectFrom("hold").select("version").where("piece", "=", hood).executeTakeFirst()
    )?.version;
    const lift = { piece: hood, version: version ?? 0, note: "looked at by the provider" };
    expect(await tobin.refusalsOf(liftHoldAct, lift)).toEqual(["not-yours-to-lift"]);
    await rosalind.must(liftHoldAct, lift);
    expect(await standing(hood)).toEqual([]);
  });
});

describe("a change of the event", () => {
  test("that adds a kind holds again what was cleaned of the first", async () => {
    const hood = await register("hood");
    const id = await fireWith([hood]);
    await clean(hood);
    await tobin.must(changeEventAct, { id, event: aFire(["fire-products", "asbestos"]) });
    expect(await standing(hood)).toEqual([id]);
    await rosalind.must(changeEventAct, { id, event: aFire(), note: "the laboratory found none" });
    expect(await standing(hood)).toEqual([]);
  });

  test("of its interval is followed by every piece", async () => {
    const hood = await register("hood");
    const id = await fireWith([hood]);
    await tobin.must(changeEventAct, { id, event: { ...aFire(), from: at("09:30:00") } });
    const row = await database.app
      .selectFrom("piece_met")
      .select(["met_from", "evidence"])
      .where("event", "=", id)
      .executeTakeFirst();
    expect(row).toEqual({ met_from: new Date(at("09:30:00")), evidence: "presumed" });
  });
});

describe("who and what was there", () => {
  test("is corrected by scanning: what was presumed is seen, and what lay elsewhere is taken off", async () => {
    const [worn, other] = [await register("hood"), await register("hood")];
    const event = await fireWith([worn, other]);
    await tobin.must(correctEventAct, {
      event,
      members: [{ member: department.corwin, set: "second set" }],
      pieces: scanned(worn),
      notMembers: [],
      notPieces: [other],
    });
    expect(await met(event)).toEqual([{ piece: worn, evidence: "scanned" }]);
    expect([await standing(worn), await standing(other)]).toEqual([[event], []]);
    const listed = await database.app
      .selectFrom("event_member")
      .select(["member", "set_name"])
      .where("event", "=", event)
      .execute();
    expect(listed).toEqual([{ member: department.corwin, set_name: "second set" }]);
  });

  test("is never weakened: what was scanned stays scanned when it is presumed again", async () => {
    const hood = await register("hood");
    const event = await fireWith([hood], undefined, "scanned");
    const again = { event, members: [], notMembers: [], notPieces: [] };
    const presumed = [{ piece: hood, evidence: "presumed" as const }];
    expect(await tobin.refusalsOf(correctEventAct, { ...again, pieces: presumed })).toEqual([
      "nothing-to-do",
    ]);
  });

  test("that somebody saw there is taken off by the program manager alone", async () => {
    const hood = await register("hood");
    const event = await fireWith([hood], undefined, "scanned");
    const off = { event, members: [], pieces: [], notMembers: [], notPieces: [hood] };
    expect(await tobin.refusalsOf(correctEventAct, off)).toEqual(["seen-at-event"]);
    await rosalind.must(correctEventAct, off);
    expect([await met(event), await standing(hood)]).toEqual([[], []]);
  });
});

test("the tables of events follow from the ledger alone", async () => {
  expect((await verifyLedger(database.app)).findings).toEqual([]);
});
