import {
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
  recordFoundAct,
  separateLayersAct,
} from "../cases/bench-acts.ts";
import { correctMoveAct } from "../cases/correct-acts.ts";
import { describePieceAct } from "../cases/register-acts.ts";
import { recordAcceptanceAct } from "../cases/rule-acts.ts";
import { attachTagAct, printTagsAct, reserveTagsAct } from "../cases/tag-acts.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { LocalDate } from "../domain/time.ts";
import { DAY_MS } from "./clock.ts";
import { type Department, placeNamed } from "./found-department.ts";
import { atPlace, attempt, type Demo, must, scanned } from "./hands.ts";
import { kettleYard, setContaminants } from "./kettle-yard.ts";
import { turnIn, wash } from "./live-months.ts";
import type { DressedMember, Garment } from "./stock-gear.ts";

/** What stands out in the demo, each worth finding by a scan. Days count from the end of the demo. */
export async function tellStories(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  pool: readonly Garment[],
): Promise<void> {
  const { lastDay } = demo.clock;
  const coats = pool.filter(({ model }) => model.kind === "coat-shell");
  await setContaminants(demo, department);
  await takenAtNight(demo, department, members, coats[0], lastDay - 30);
  await unseenForWeeks(demo, department, members, lastDay - 26);
  await correctedMove(demo, department, coats[1], lastDay - 20);
  await acceptedPants(demo, department, pool, lastDay - 16);
  await swappedLiners(demo, department, members, lastDay - 12);
  await atProvider(demo, department, coats.slice(2, 5), lastDay - 9);
  await kettleYard(demo, department, members, lastDay - 8);
  await replacedTag(demo, department, coats[5], lastDay - 5);
  await writtenDownLate(demo, department, members, lastDay - 3);
}

/** A coat on hold for a finding is taken by a captain at night: the record says so, and the hold stays. */
async function takenAtNight(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  coat: Garment | undefined,
  day: number,
): Promise<void> {
  const captain = members[4];
  if (!coat || !captain) return;
  demo.clock.at(day, 15);
  const note = "Moisture barrier darkened at the left shoulder; light test next.";
  await must(demo, department.maren, placeHoldAct, { pieces: [coat.shell], hold: "finding", note });
  demo.clock.at(day + 1, 3, 10);
  await must(demo, department.aldous, recordFoundAct, {
    pieces: scanned(coat.shell),
    holder: { kind: "member", id: captain.id },
    takenBy: captain.id,
  });
}

/** A helmet turns up after weeks without a record: the time between is a custody gap. */
async function unseenForWeeks(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  day: number,
): Promise<void> {
  const helmet = members[7]?.sets[0]?.singles[2];
  if (!helmet) return;
  demo.clock.at(day, 11);
  await must(demo, department.inez, recordFoundAct, {
    pieces: scanned(helmet),
    holder: atPlace(placeNamed(department, "Station 2 gear room")),
  });
}

/** Rack C2 was written down and Rack C1 was meant: both entries stay. */
async function correctedMove(
  demo: Demo,
  department: Department,
  coat: Garment | undefined,
  day: number,
): Promise<void> {
  if (!coat) return;
  demo.clock.at(day, 11, 30);
  const to = atPlace(placeNamed(department, "Rack C2"));
  const moved = await attempt(demo, department.inez, movePiecesAct, {
    pieces: scanned(coat.shell),
    to,
    purpose: "transfer",
  });
  const version =
    "written" in moved && moved.written.entries.find(({ subject }) => subject === coat.shell)?.version;
  if (!version) throw new Error("The demo's coat did not move.");
  demo.clock.at(day + 1, 14, 10);
  const note = "The coat hangs on Rack C1; C2 was scanned by mistake.";
  const right = atPlace(placeNamed(department, "Rack C1"));
  await must(demo, department.odile, correctMoveAct, { piece: coat.shell, version, to: right, note });
  for (const layer of coat.layers) {
    const found = await demo.db
      .selectFrom("piece")
      .select("version")
      .where("id", "=", layer)
      .executeTakeFirst();
    const last = Number(found?.version);
    await must(demo, department.odile, correctMoveAct, { piece: layer, version: last, to: right, note });
  }
}

/** A newer pants liner goes into a shell that takes another code: the maker's letter accepts it. */
async function acceptedPants(
  demo: Demo,
  department: Department,
  pool: readonly Garment[],
  day: number,
): Promise<void> {
  const pants = pool.find(({ model }) => model.kind === "pants-shell" && model.name === "K7");
  const liner = pants?.layers[0];
  if (!pants || !liner) return;
  const { clock, chance } = demo;
  clock.at(day, 10);
  await must(demo, department.inez, separateLayersAct, { pieces: scanned(pants.shell) });
  await must(demo, department.inez, describePieceAct, {
    piece: liner,
    label: { linerCode: "LP-3" },
    file: {},
    note: "The sewn-in label reads LP-3; the list had LP-2.",
  });
  const refused = await attempt(demo, department.inez, installLayerAct, {
    shell: pants.shell,
    layer: liner,
    evidence: "scanned",
  });
  if ("written" in refused) throw new Error("The demo's wrong liner went in.");
  clock.at(day + 2, 9);
  await must(demo, department.odile, recordAcceptanceAct, {
    id: chance.id<Uuid>(clock.now()),
    scope: { what: "pieces", shell: pants.shell, layer: liner },
    saidBy: "maker",
    saidByName: "Tarnholt",
    document: "Letter T-118 on liner LP-3 in K7 pants shells",
    saidOn: new Date(clock.now() - DAY_MS).toISOString().slice(0, 10) as LocalDate,
  });
  await must(demo, department.inez, installLayerAct, {
    shell: pants.shell,
    layer: liner,
    evidence: "scanned",
  });
}

/** Two coats went home from the wash with each other's liners; one pair is still on hold. */
async function swappedLiners(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  day: number,
): Promise<void> {
  const [one, other] = differingCoats(members);
  if (!one || !other) throw new Error("The demo has no two coats of different size.");
  demo.clock.at(day, 9);
  const worn = [one, other].flatMap(({ sets }) => sets[0] ?? []);
  for (const set of worn) await turnIn(demo, department, set);
  demo.clock.at(day + 1, 8);
  await wash(demo, department, worn);
  demo.clock.at(day + 4, 10, 14);
  const [mine, yours] = [one.sets[0]?.coat, other.sets[0]?.coat];
  const [myLiner, yourLiner] = [mine?.layers[0], yours?.layers[0]] as [PieceId, PieceId];
  if (!mine || !yours) return;
  await must(demo, department.inez, recordFoundAct, {
    pieces: scanned(mine.shell, yourLiner),
    holder: atPlace(placeNamed(department, "Bench 1")),
    fitted: [{ shell: mine.shell, layer: yourLiner }],
  });
  demo.clock.pass(3);
  for (const coat of [mine, yours]) {
    const drd = coat.layers[1];
    if (drd)
      await must(demo, department.inez, installLayerAct, {
        shell: coat.shell,
        layer: drd,
        evidence: "scanned",
      });
  }
  await must(demo, department.inez, movePiecesAct, {
    pieces: scanned(myLiner, yours.shell),
    to: atPlace(placeNamed(department, "Rack C1")),
    purpose: "storage",
  });
}

function differingCoats(members: readonly DressedMember[]): readonly (DressedMember | undefined)[] {
  const first = members[0];
  const coat = first?.sets[0]?.coat;
  const other = members
    .slice(1)
    .find(
      ({ sets }) => sets[0] && coat && sets[0].coat.model === coat.model && sets[0].coat.size !== coat.size,
    );
  return [first, other];
}

/** Three coats are at a provider, and one of them has been there longer than the others. */
async function atProvider(
  demo: Demo,
  department: Department,
  coats: readonly Garment[],
  day: number,
): Promise<void> {
  demo.clock.at(day, 13);
  await must(demo, department.tobin, movePiecesAct, {
    pieces: scanned(...coats.map(({ shell }) => shell)),
    to: { kind: "provider", id: department.provider },
    purpose: "to provider",
    document: "Manifest 44",
  });
}

/** A burnt tag is replaced; the old number still opens the coat. */
async function replacedTag(
  demo: Demo,
  department: Department,
  coat: Garment | undefined,
  day: number,
): Promise<void> {
  if (!coat) return;
  demo.clock.at(day, 14);
  const run = demo.chance.id<Uuid>(demo.clock.now());
  await must(demo, department.inez, reserveTagsAct, { run, pieces: [coat.shell] });
  await must(demo, department.inez, printTagsAct, { run });
  const tags = await demo.db.selectFrom("tag").selectAll().where("meant_for", "=", coat.shell).execute();
  const fresh = tags.find((tag) => tag.run === run)?.number;
  const old = tags.find((tag) => tag.state === "attached")?.number;
  if (!fresh || !old) throw new Error("The demo's tags are not there.");
  const attach = { piece: coat.shell, number: fresh as never, position: "main", proof: "scanned" as const };
  await must(demo, department.inez, attachTagAct, { ...attach, replaces: old as never });
}

/** A turn-in at night is written down two and a half days later. */
async function writtenDownLate(
  demo: Demo,
  department: Department,
  members: readonly DressedMember[],
  day: number,
): Promise<void> {
  const hood = members[9]?.sets[0]?.singles[0];
  if (!hood) return;
  const happened = demo.clock.at(day, 18, 20);
  demo.clock.at(day + 2, 20);
  await must(
    demo,
    department.tobin,
    movePiecesAct,
    {
      pieces: [{ piece: hood, evidence: "typed" }],
      to: atPlace(placeNamed(department, "Isolation rack")),
      purpose: "turn in",
      soiled: true,
    },
    { at: happened },
  );
}
