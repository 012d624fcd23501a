import { expect, test } from "vitest";
import { daySeal } from "../../server/cases/day-seal.ts";
import { namePlaceAct } from "../../server/cases/register-acts.ts";
import { setSettingsAct } from "../../server/cases/rule-acts.ts";
import { type Act, runAct } from "../../server/cases/run-act.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { AccountId, ActId, PlaceId } from "../../server/domain/ids.ts";
import type { Instant, LocalDate } from "../../server/domain/time.ts";
import { anId } from "../kit/acting.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();

/** Writes an act that the server records at a moment; gives its position. */
async function recordedAt<Command>(moment: string, act: Act<Command>, command: Command): Promise<number> {
  const at = Date.parse(moment) as Instant;
  const envelope = {
    ...{ id: anId<ActId>(), by: anId<AccountId>(), role: "program manager" as const, device: "bench-1" },
    ...{ deviceSeq: 1, appBuild: "test", at, atOffsetMin: 0, sentAt: at },
  };
  const outcome = await runAct(database.app, act, command, envelope, at);
  if ("refusals" in outcome) throw new Error(outcome.refusals[0]?.code);
  return outcome.written.position;
}
const named = (moment: string) =>
  recordedAt(moment, namePlaceAct, { id: anId<PlaceId>(), name: moment, what: "rack", carries: "shared" });
const sealOf = (day: string) => daySeal(database.app, day as LocalDate);

test("a day's seal is the last act that was recorded until the department's midnight, whatever UTC says", async () => {
  expect(await sealOf("2026-10-30")).toBeUndefined();
  await recordedAt("2026-10-30T12:00:00Z", setSettingsAct, { settings: { "time zone": "America/Chicago" } });
  await named("2026-10-31T12:00:00Z");
  const lateSaturday = await named("2026-11-01T04:59:59.999Z");
  await named("2026-11-01T05:00:00.000Z");
  // The clocks go back on this Sunday, so that it has 25 hours.
  const lateSunday = await named("2026-11-02T05:59:59.999Z");
  const earlyMonday = await named("2026-11-02T06:00:00.000Z");
  const seals = await Promise.all(["2026-10-31", "2026-11-01", "2026-11-02", "2026-11-03"].map(sealOf));
  expect(seals.map((seal) => seal?.position)).toEqual([lateSaturday, lateSunday, earlyMonday, earlyMonday]);
  const acts = await database.app.selectFrom("act").select(["position", "hash"]).execute();
  for (const seal of seals) {
    expect(seal?.zone).toBe("America/Chicago");
    expect(acts.find(({ position }) => position === seal?.position)?.hash.toString("hex")).toBe(seal?.hash);
  }
});

test("the check takes a day's seal, and says when it is another one's", async () => {
  const [saturday, sunday] = [await sealOf("2026-10-31"), await sealOf("2026-11-01")];
  const check = (day: string, hash = "") =>
    verifyLedger(database.app, { seals: [{ day: day as LocalDate, hash }] }).then(({ findings }) => findings);
  expect(await check("2026-10-31", saturday?.hash)).toEqual([]);
  expect(await check("2026-10-31", sunday?.hash)).toMatchObject([
    { code: "seal-differs", day: "2026-10-31" },
  ]);
  expect(await check("2026-10-01", sunday?.hash)).toEqual([{ code: "seal-without-act", day: "2026-10-01" }]);
});
