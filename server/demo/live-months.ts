import { installLayerAct, movePiecesAct, separateLayersAct } from "../cases/bench-acts.ts";
import type { PieceId } from "../domain/ids.ts";
import type { Department } from "./found-department.ts";
import { placeNamed } from "./found-department.ts";
import { atPlace, type Demo, must, scanned } from "./hands.ts";
import type { DressedMember, Garment, GearSet } from "./stock-gear.ts";
import {
  abortedRun,
  checkMachines,
  DRY_MINUTES,
  faultyWasher,
  load,
  rememberedLoad,
  unload,
  WASH_MINUTES,
} from "./wash-room.ts";

/** Weeks in which something out of the ordinary happens in the wash room, and how often the machines are checked. */
const WEEKS = { aborted: 30, remembered: 44, faulty: 61, checks: 13 };

/** Plays the ordinary weeks: after a fire a set comes back soiled, is washed apart, put together and handed out again. */
export async function liveMonths(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  days: { readonly from: number; readonly to: number },
): Promise<void> {
  for (let day = days.from, week = 1; day < days.to; day += 7, week++) {
    const crew = [...new Set([demo.chance.pick(members), demo.chance.pick(members)])];
    const worn = crew.flatMap((member) => {
      const set = member.sets[demo.chance.below(member.sets.length)];
      return set ? [{ member, set }] : [];
    });
    demo.clock.at(day, 9, demo.chance.below(50));
    for (const { set } of worn) await turnIn(demo, department, set);
    demo.clock.at(day + 1, 8, 30);
    await wash(
      demo,
      department,
      worn.map(({ set }) => set),
      week === WEEKS.aborted ? "aborted first" : week === WEEKS.remembered ? "remembered" : "as ever",
    );
    demo.clock.at(day + 2, 10);
    for (const { member, set } of worn) await handBack(demo, department, member, set);
    if (week % WEEKS.checks === 0) await checkMachines(demo, department);
    if (week === WEEKS.faulty) await faultyWasher(demo, department, day + 3);
  }
}

/** Takes a set back soiled, shells with what is in them, hood and gloves beside them. */
export async function turnIn(demo: Demo, department: Department, set: GearSet): Promise<void> {
  await must(demo, department.tobin, movePiecesAct, {
    pieces: scanned(set.coat.shell, set.pants.shell, ...washable(set)),
    to: atPlace(placeNamed(department, "Intake rack")),
    purpose: "turn in",
    soiled: true,
    condition: "not looked at",
  });
}

/** Takes the layers apart, washes shells and liners in their own loads, and hangs all to dry. */
export async function wash(
  demo: Demo,
  department: Department,
  sets: readonly GearSet[],
  how: "as ever" | "aborted first" | "remembered" = "as ever",
): Promise<void> {
  const { tobin } = department;
  const shells = sets.flatMap(({ coat, pants }) => [coat.shell, pants.shell]);
  const layers = sets.flatMap(({ coat, pants }) => [...coat.layers, ...pants.layers]);
  const singles = sets.flatMap((set) => washable(set));
  await must(demo, tobin, separateLayersAct, { pieces: scanned(...shells) });
  demo.clock.pass(20);
  if (how === "aborted first") await abortedRun(demo, department, "Washer 1", shells);
  const inside = [...layers, ...singles];
  const began = demo.clock.now();
  const washes = [
    ...(how === "remembered" ? [] : [await load(demo, department, "Washer 1", shells)]),
    await load(demo, department, "Washer 2", inside),
  ];
  demo.clock.pass(WASH_MINUTES + 2);
  for (const one of washes) await unload(demo, department, one);
  if (how === "remembered") {
    demo.clock.pass(240);
    await rememberedLoad(demo, department, shells, began + (WASH_MINUTES + 40) * 60_000);
  }
  const dryings = [
    await load(demo, department, "Dryer 1", shells),
    await load(demo, department, "Dryer 2", inside),
  ];
  demo.clock.pass(DRY_MINUTES + 5);
  for (const one of dryings) await unload(demo, department, one);
  await must(demo, tobin, movePiecesAct, {
    pieces: scanned(...shells, ...layers, ...singles),
    to: atPlace(placeNamed(department, "Drying rack")),
    purpose: "storage",
  });
}

/** Puts every layer back into its own shell and hands the set to its member. */
export async function handBack(
  demo: Demo,
  department: Department,
  member: DressedMember,
  set: GearSet,
): Promise<void> {
  for (const garment of [set.coat, set.pants]) await putTogether(demo, department, garment);
  demo.clock.pass(15);
  await must(demo, department.inez, movePiecesAct, {
    pieces: scanned(set.coat.shell, set.pants.shell, ...washable(set)),
    to: { kind: "member", id: member.id },
    purpose: "issue",
    condition: "used, no finding",
  });
}

export async function putTogether(demo: Demo, department: Department, garment: Garment): Promise<void> {
  for (const layer of garment.layers) {
    demo.clock.pass(1);
    await must(demo, department.inez, installLayerAct, { shell: garment.shell, layer, evidence: "scanned" });
  }
}

/** Of the single pieces: hood and gloves are washed with a set; helmet and boots are not. */
function washable(set: GearSet): readonly PieceId[] {
  return set.singles.slice(0, 2);
}
