import { setUp } from "../cases/set-up.ts";
import type { Db } from "../store/db.ts";
import { DAY_MS } from "./clock.ts";
import { DEMO_DAYS, fillDemo } from "./fill-demo.ts";
import { DEMO_PASSPHRASE } from "./found-department.ts";
import { STAFF, TIME_ZONE } from "./harrow-county.ts";

/** Fills the demo's folder at its first start, and says how to sign in at every start. */
export async function openDemo(db: Db, nowMs: number = Date.now()): Promise<readonly string[]> {
  const listed = await db.selectFrom("member").select("id").limit(1).executeTakeFirst();
  if (!listed) {
    const beforeMs = nowMs - (DEMO_DAYS + 1) * DAY_MS;
    await setUp(db, { nowMs: beforeMs, appBuild: "demo", timeZone: TIME_ZONE });
    await fillDemo(db, { todayMs: nowMs });
  }
  const names = STAFF.map(([name, role, signInName, pin]) => `  ${signInName}  ${name}, ${role}, PIN ${pin}`);
  return [`The demo's people sign in with the passphrase "${DEMO_PASSPHRASE}":`, ...names];
}
