import { makeBagsAct, openBagAct, packBagAct } from "../cases/bag-acts.ts";
import { movePiecesAct, recordFoundAct, separateLayersAct } from "../cases/bench-acts.ts";
import { changeEventAct, openEventAct, ruleContaminantAct } from "../cases/event-acts.ts";
import { ruleOf } from "../domain/contamination/contaminant-rule.ts";
import type { EventFacts } from "../domain/contamination/contamination-event.ts";
import { STARTING_CONTAMINANTS } from "../domain/contamination/starting-contaminants.ts";
import type { EventId, PieceId, PlaceId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import { type Department, placeNamed } from "./found-department.ts";
import { atPlace, type Demo, must, scanned } from "./hands.ts";
import { putTogether, turnIn } from "./live-months.ts";
import type { DressedMember, GearSet } from "./stock-gear.ts";
import { load, unload, WASH_MINUTES } from "./wash-room.ts";

const HOUR_MS = 3_600_000;

/** What the county's own procedure says where the program came without a source. */
const PROCEDURE = "Harrow County procedure 12, 2025";

/** Says what gear of a fire may share a load with, so that a department that has decided can be seen. */
export async function setContaminants(demo: Demo, department: Department): Promise<void> {
  const rule = ruleOf(STARTING_CONTAMINANTS, "fire-products");
  const share = { ...rule.asks["share a load"], says: "yes" as const, source: PROCEDURE, confirmed: true };
  await must(demo, department.odile, ruleContaminantAct, {
    rule: { ...rule, asks: { ...rule.asks, "share a load": share } },
    note: "Turnout gear of a structure fire is washed together; hoods apart.",
  });
}

/**
 * The Kettle Yard fire: two members, four garments. Their gear is washed in the night, one load shared with a third
 * member's coat, since nobody knew yet that roof sheets of asbestos had broken. A liner of it goes into another coat
 * afterwards, and at night two hoods are swapped. The laboratory's word comes two days later.
 */
export async function kettleYard(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  day: number,
): Promise<void> {
  const [one, two, third] = members.slice(5, 8);
  const sets = [one?.sets[0], two?.sets[0], third?.sets[0]];
  const [ofOne, ofTwo, ofThird] = sets;
  if (!one || !two || !third || !ofOne || !ofTwo || !ofThird) return;
  const { clock, chance } = demo;
  const bags = Array.from({ length: 20 }, () => chance.id<PlaceId>(clock.now()));
  clock.at(day, 2, 10);
  await must(demo, department.tobin, makeBagsAct, { bags, within: placeNamed(department, "Gear cage") });
  const from = clock.now() as Instant;
  const facts: EventFacts = {
    ...{ name: "the Kettle Yard fire", where: "Kettle Yard, sheds 3 and 4", incident: "26-0411" },
    ...{ from, to: (from + 2 * HOUR_MS) as Instant, kinds: ["fire-products"] },
  };
  clock.at(day, 4, 40);
  const id = chance.id<EventId>(clock.now());
  await must(demo, department.aldous, openEventAct, {
    id,
    event: facts,
    members: [one, two].map(({ id: member }) => ({ member, set: "first set" })),
    pieces: [ofOne, ofTwo].flatMap(worn).map((piece) => ({ piece, evidence: "presumed" as const })),
  });
  clock.at(day, 5, 15);
  const [bagOne, bagTwo] = bags as [PlaceId, PlaceId];
  await must(demo, department.aldous, packBagAct, { bag: bagOne, member: one.id });
  await must(demo, department.aldous, packBagAct, { bag: bagTwo, member: two.id });
  await sharedLoad(demo, department, [bagOne, bagTwo], [ofOne, ofTwo], ofThird);
  clock.at(day + 1, 9, 30);
  await linerElsewhere(demo, department, [ofOne, ofTwo, ofThird]);
  clock.at(day + 1, 23, 50);
  await swapAtNight(demo, department, [ofTwo, two], [ofThird, third]);
  clock.at(day + 2, 11, 5);
  await must(demo, department.odile, changeEventAct, {
    id,
    event: { ...facts, kinds: ["fire-products", "asbestos"] },
    note: "The laboratory found asbestos in the roof sheets of shed 4.",
  });
}

/** All that a member wears of a set; layers are told with their shells. */
function worn(set: GearSet): readonly PieceId[] {
  return [set.coat.shell, set.pants.shell, ...set.singles];
}
function layersOf(set: GearSet): readonly PieceId[] {
  return [...set.coat.layers, ...set.pants.layers];
}

/** The bags are opened and washed in the morning; a third member's coat goes in with them. */
async function sharedLoad(
  demo: Demo,
  department: Department,
  [bagOne, bagTwo]: readonly [PlaceId, PlaceId],
  [ofOne, ofTwo]: readonly [GearSet, GearSet],
  ofThird: GearSet,
): Promise<void> {
  const { tobin } = department;
  demo.clock.pass(100);
  await turnIn(demo, department, ofThird);
  for (const [bag, set] of [
    [bagOne, ofOne],
    [bagTwo, ofTwo],
  ] as const) {
    demo.clock.pass(6);
    await must(demo, tobin, openBagAct, { bag, found: scanned(...worn(set), ...layersOf(set)) });
  }
  demo.clock.pass(5);
  const shells = [ofOne, ofTwo].flatMap(({ coat, pants }) => [coat.shell, pants.shell]);
  await must(demo, tobin, separateLayersAct, { pieces: scanned(...shells, ofThird.coat.shell) });
  const washes = [
    await load(demo, department, "Washer 1", [...shells, ofThird.coat.shell]),
    await load(
      demo,
      department,
      "Washer 2",
      [ofOne, ofTwo].flatMap((set) => layersOf(set)),
    ),
  ];
  demo.clock.pass(WASH_MINUTES + 2);
  for (const wash of washes) await unload(demo, department, wash);
  await must(demo, tobin, movePiecesAct, {
    pieces: scanned(...shells, ofThird.coat.shell, ...[ofOne, ofTwo].flatMap((set) => layersOf(set))),
    to: atPlace(placeNamed(department, "Drying rack")),
    purpose: "storage",
  });
}

/** The first member's coat liner is found in the third member's coat; the other garments are whole again. */
async function linerElsewhere(
  demo: Demo,
  department: Department,
  [ofOne, ofTwo, ofThird]: readonly [GearSet, GearSet, GearSet],
): Promise<void> {
  const [liner] = ofOne.coat.layers;
  if (!liner) return;
  await must(demo, department.inez, recordFoundAct, {
    pieces: scanned(ofThird.coat.shell, liner),
    holder: atPlace(placeNamed(department, "Bench 1")),
    fitted: [{ shell: ofThird.coat.shell, layer: liner }],
  });
  for (const garment of [ofOne.pants, ofTwo.coat, ofTwo.pants]) {
    await putTogether(demo, department, garment);
  }
}

/** At night two members take each other's hoods. */
async function swapAtNight(
  demo: Demo,
  department: Department,
  [ofTwo, two]: readonly [GearSet, DressedMember],
  [ofThird, third]: readonly [GearSet, DressedMember],
): Promise<void> {
  for (const [set, member] of [
    [ofTwo, third],
    [ofThird, two],
  ] as const) {
    const [hood] = set.singles;
    if (!hood) continue;
    demo.clock.pass(2);
    await must(demo, department.aldous, recordFoundAct, {
      pieces: scanned(hood),
      holder: { kind: "member", id: member.id },
      takenBy: member.id,
    });
  }
}
