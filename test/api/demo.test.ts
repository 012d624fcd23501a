import { beforeAll, describe, expect, test } from "vitest";
import { verifyLedger } from "../../server/cases/verify.ts";
import { openDemo } from "../../server/demo/open-demo.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
/** The demo ends on this day, so that its stories are the same in every run. */
const TODAY = Date.parse("2026-11-25T16:00:00Z");

beforeAll(async () => {
  await openDemo(database.app, TODAY);
}, 180_000);

async function count(question: string): Promise<number> {
  const { rows } = await database.appPool.query(`select count(*)::int as n from ${question}`);
  return rows[0].n;
}

describe("the demo's department", () => {
  test("has 48 members, about 900 pieces and 18 months of acts that end today", async () => {
    expect(await count("member")).toBe(48);
    const pieces = await count("piece");
    expect(pieces).toBeGreaterThan(800);
    expect(pieces).toBeLessThan(1000);
    const { rows } = await database.appPool.query("select min(at) as first, max(at) as last from act");
    expect((TODAY - rows[0].first.getTime()) / 86_400_000).toBeGreaterThan(540);
    expect(TODAY - rows[0].last.getTime()).toBeLessThan(5 * 86_400_000);
  });

  test("keeps two sets for 30 members", async () => {
    expect(await count("(select distinct member from piece where set_name = 'second set') m")).toBe(30);
  });

  test("tells its stories: wrong liner held with its shell, accepted word, replaced tag, gap, provider, night", async () => {
    expect(await count("hold where hold_kind = 'differs' and lifted_at is null")).toBe(4);
    expect(await count("fitting where verdict = 'accepted' and to_at is null")).toBe(1);
    expect(await count("tag where state = 'superseded'")).toBe(1);
    expect(await count("stay where holder_kind = 'whereabouts unknown'")).toBeGreaterThan(0);
    expect(await count("piece where holder_kind = 'provider'")).toBeGreaterThanOrEqual(3);
    const atNight = "hold where hold_kind = 'finding' and lifted_at is null and piece in";
    expect(await count(`${atNight} (select id from piece where holder_kind = 'member')`)).toBe(1);
    expect(await count("entry where kind = 'EntryCorrected'")).toBeGreaterThan(0);
  });

  test("tells of the Kettle Yard fire what a trace finds: a shared load, a liner elsewhere, a night swap", async () => {
    expect(await count("event_member")).toBe(2);
    const met = "piece_met m join piece p on p.id = m.piece";
    expect(await count(`${met} where p.kind like '%-shell'`)).toBe(4);
    // Washed before anybody knew of the asbestos: what it met is on hold again, in the field too.
    expect(await count("hold where event is not null and lifted_at is null")).toBeGreaterThan(8);
    const load = "stay s where s.load in (select t.load from stay t join piece_met m on m.piece = t.piece)";
    expect(await count(`${load} and s.piece not in (select piece from piece_met)`)).toBeGreaterThan(0);
    const elsewhere = "fitting f join piece_met m on m.piece = f.layer where f.to_at is null";
    expect(await count(`${elsewhere} and f.shell not in (select piece from piece_met)`)).toBe(1);
    const swapped =
      "piece p join piece_met m on m.piece = p.id where p.kind = 'hood' and p.holder <> p.member";
    expect(await count(swapped)).toBeGreaterThan(0);
  });

  test("washes and dries in loads: an aborted one, a remembered one, and a washer that was found faulty", async () => {
    expect(await count("load where how is not null")).toBeGreaterThan(100);
    expect(await count("load where how is null and outcome = 'as programmed'")).toBeGreaterThan(100);
    expect(await count("load where ended_at is null")).toBe(0);
    expect(await count("load where outcome = 'aborted'")).toBe(1);
    expect(await count("load where about_at is not null")).toBe(1);
    expect(await count("machine_check where outcome = 'faulty'")).toBe(1);
    // Shells and what goes inside them never shared a load.
    const kinds =
      "select distinct s.load, p.kind like '%-shell' as is_shell from stay s join piece p on p.id = s.piece";
    const washed = `(${kinds} join load l on l.id = s.load and l.how is not null) k`;
    expect(await count(`(select load from ${washed} group by load having count(*) > 1) mixed`)).toBe(0);
  });

  test("verifies: its chain holds and its tables follow from its entries", async () => {
    expect((await verifyLedger(database.app)).findings).toEqual([]);
  }, 60_000);

  test("is not filled twice", async () => {
    const acts = await count("act");
    await openDemo(database.app, TODAY);
    expect(await count("act")).toBe(acts);
  });
});
