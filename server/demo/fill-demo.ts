import type { Db } from "../store/db.ts";
import { demoClock } from "./clock.ts";
import { foundDepartment, placeNamed } from "./found-department.ts";
import type { Demo } from "./hands.ts";
import { OFFSET_MIN } from "./harrow-county.ts";
import { liveMonths } from "./live-months.ts";
import { readLabels } from "./read-labels.ts";
import { seededChance } from "./seeded.ts";
import { type DressedMember, issueSet, makeSet, stockPool } from "./stock-gear.ts";
import { tellStories } from "./tell-stories.ts";

/** Eighteen months. */
export const DEMO_DAYS = 548;
/** Members who have a second set. */
const WITH_SECOND = 30;
const DRESSED_BY_DAY = 14;

/**
 * Fills an empty database that was set up with an invented department: 48 members, about 900 pieces, 18 months of acts
 * that end today, all decided by the same rules as real ones. The same seed gives the same story; numbers of tags are
 * drawn as ever. Returns how many acts were written.
 */
export async function fillDemo(
  db: Db,
  options: { readonly todayMs: number; readonly seed?: number; readonly onAct?: (acts: number) => void },
): Promise<number> {
  let acts = 0;
  const onAct = () => {
    acts += 1;
    options.onAct?.(acts);
  };
  const demo: Demo = {
    db,
    clock: demoClock(options.todayMs, DEMO_DAYS, OFFSET_MIN),
    chance: seededChance(options.seed ?? 20_240_501),
    onAct,
  };
  const department = await foundDepartment(demo);
  const shelf = placeNamed(department, "Receiving shelf");
  const members: DressedMember[] = [];
  for (const [index, member] of department.members.entries()) {
    demo.clock.at(Math.floor((index * DRESSED_BY_DAY) / department.members.length), 9);
    const sets = [];
    for (let set = 0; set < (index < WITH_SECOND ? 2 : 1); set++) {
      sets.push(await makeSet(demo, department, shelf, set === 0));
    }
    members.push({ ...member, sets });
  }
  const pool = await stockPool(demo, department);
  await readLabels(demo, department, shelf);
  demo.clock.at(DRESSED_BY_DAY + 2, 9);
  for (const member of members) {
    for (const [index, set] of member.sets.entries()) {
      demo.clock.pass(6);
      await issueSet(demo, department, member, set, index === 0 ? "first set" : "second set");
    }
  }
  await liveMonths(demo, department, members, { from: DRESSED_BY_DAY + 6, to: DEMO_DAYS - 36 });
  await tellStories(demo, department, members, pool);
  return acts;
}
