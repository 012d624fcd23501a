import { movePiecesAct, recordFoundAct } from "../cases/bench-acts.ts";
import { registerPiecesAct } from "../cases/register-acts.ts";
import { attachTagsAct, printTagsAct, reserveTagsAct } from "../cases/tag-acts.ts";
import type { PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { MakersLabel } from "../domain/pieces/label.ts";
import type { PieceDraft } from "../domain/register/register-pieces.ts";
import type { YearMonth } from "../domain/time.ts";
import type { DemoMember, Department } from "./found-department.ts";
import { placeNamed } from "./found-department.ts";
import { atPlace, type Demo, must, scanned } from "./hands.ts";
import {
  COAT_SIZES,
  type DemoModel,
  MODELS,
  PANTS_SIZES,
  PATTERNS,
  SINGLE,
  type SingleKind,
} from "./harrow-county.ts";

export interface Garment {
  readonly shell: PieceId;
  readonly layers: readonly PieceId[];
  readonly model: DemoModel;
  readonly size: string;
}
export interface GearSet {
  readonly coat: Garment;
  readonly pants: Garment;
  readonly singles: readonly PieceId[];
}
export interface DressedMember extends DemoMember {
  readonly sets: readonly GearSet[];
}

/** Gear on its way in: drafts, and what is fitted in what. */
interface Incoming {
  readonly drafts: PieceDraft[];
  readonly fitted: { readonly shell: PieceId; readonly layer: PieceId }[];
}

/** Drafts a coat or pants with its layers. */
function draftGarment(demo: Demo, incoming: Incoming, garment: "coat" | "pants", place: PlaceId): Garment {
  const { chance } = demo;
  const model = chance.pick(MODELS.filter(({ kind }) => kind === `${garment}-shell`));
  const size = chance.pick<string>(garment === "coat" ? COAT_SIZES : PANTS_SIZES);
  const label: MakersLabel = {
    maker: model.maker,
    modelName: model.name,
    size,
    pattern: chance.pick(PATTERNS),
    madeOn: madeOn(demo),
  };
  const linerCode = model.takes[0]?.takesLinerCode ?? "";
  const shell = draft(demo, model.kind, { ...label, linerCode, serial: serial(demo) }, place);
  const layers = model.takes.map(({ layerKind, takesLinerCode }) => {
    const own = { ...label, linerCode: takesLinerCode, serial: serial(demo) };
    return draft(demo, layerKind, layerKind === "drd" ? { ...own, size: "one size" } : own, place);
  });
  incoming.drafts.push(shell, ...layers);
  incoming.fitted.push(...layers.map(({ id }) => ({ shell: shell.id, layer: id })));
  return { shell: shell.id, layers: layers.map(({ id }) => id), model, size };
}

/** Drafts pieces that stand alone. A few labels are still to be read. */
function draftSingles(
  demo: Demo,
  incoming: Incoming,
  kinds: readonly SingleKind[],
  place: PlaceId,
): PieceId[] {
  const drafts = kinds.map((kind) => {
    const isUnread = demo.chance.isLucky(0.03);
    const lot = `L${demo.chance.below(90) + 10}`;
    const label = isUnread ? {} : { ...SINGLE[kind], madeOn: madeOn(demo), lot };
    return { ...draft(demo, kind, label, place), ...(isUnread ? { reading: "not yet read" as const } : {}) };
  });
  incoming.drafts.push(...drafts);
  return drafts.map(({ id }) => id);
}

/** Makes one set for a member, or a second one without helmet and boots. */
export async function makeSet(
  demo: Demo,
  department: Department,
  place: PlaceId,
  isFirst: boolean,
): Promise<GearSet> {
  const incoming: Incoming = { drafts: [], fitted: [] };
  const coat = draftGarment(demo, incoming, "coat", place);
  const pants = draftGarment(demo, incoming, "pants", place);
  const kinds: SingleKind[] = isFirst
    ? ["hood", "glove-pair", "helmet", "boot-pair"]
    : ["hood", "glove-pair"];
  const singles = draftSingles(demo, incoming, kinds, place);
  await bringIn(demo, department, incoming, place);
  return { coat, pants, singles };
}

/**
 * Registers drafts as one act, prints their tags as one run, scans the tags back, and records what came in fitted
 * in what.
 */
async function bringIn(
  demo: Demo,
  department: Department,
  { drafts, fitted }: Incoming,
  place: PlaceId,
): Promise<void> {
  const { inez } = department;
  const run = demo.chance.id<Uuid>(demo.clock.pass(1));
  await must(demo, inez, registerPiecesAct, { pieces: drafts, evidence: "typed" });
  await must(demo, inez, reserveTagsAct, { run, pieces: drafts.map(({ id }) => id) });
  await must(demo, inez, printTagsAct, { run });
  demo.clock.pass(4);
  const printed = await demo.db
    .selectFrom("tag")
    .select(["number", "meant_for"])
    .where("run", "=", run)
    .execute();
  const tags = printed.flatMap(({ number, meant_for }) => {
    const piece = drafts.find(({ id }) => id === meant_for);
    if (!piece) return [];
    const position = piece.kind.endsWith("-pair") ? "left" : "main";
    return [{ piece: piece.id, number: number as never, position, proof: "scanned" as const }];
  });
  await must(demo, inez, attachTagsAct, { tags });
  if (fitted.length === 0) return;
  demo.clock.pass(2);
  const pieces = scanned(...new Set(fitted.flatMap(({ shell, layer }) => [shell, layer])));
  await must(demo, inez, recordFoundAct, { pieces, holder: atPlace(place), fitted });
}

/** Hands sets to a member: the shells are scanned, their layers go along. */
export async function issueSet(
  demo: Demo,
  department: Department,
  member: DemoMember,
  set: GearSet,
  name: string,
): Promise<void> {
  await must(demo, department.inez, movePiecesAct, {
    pieces: scanned(set.coat.shell, set.pants.shell, ...set.singles),
    to: { kind: "member", id: member.id },
    purpose: "issue",
    condition: "used, no finding",
    set: name,
    fitSeenBy: department.inez.account,
  });
}

function draft(demo: Demo, kind: string, label: MakersLabel, place: PlaceId): PieceDraft {
  return {
    id: demo.chance.id<PieceId>(demo.clock.now()),
    kind,
    label,
    reading: "read",
    file: { owner: { kind: "department" }, funding: demo.chance.pick(["county budget", "state grant"]) },
    holder: atPlace(place),
  };
}

function madeOn(demo: Demo): YearMonth {
  const year = new Date(demo.clock.now()).getUTCFullYear() - 1 - demo.chance.below(6);
  return `${year}-${String(1 + demo.chance.below(12)).padStart(2, "0")}` as YearMonth;
}

function serial(demo: Demo): string {
  return `${demo.chance.pick(["HC", "TK", "BR"])}${100_000 + demo.chance.below(899_999)}`;
}

/** The pool in the cage: made-up garments and loose pieces that belong to nobody. */
export async function stockPool(demo: Demo, department: Department): Promise<Garment[]> {
  const pool: Garment[] = [];
  for (const name of ["Rack A1", "Rack A2", "Rack B1", "Rack B2", "Rack C1"]) {
    const rack = placeNamed(department, name);
    const incoming: Incoming = { drafts: [], fitted: [] };
    for (let index = 0; index < 9; index++) {
      pool.push(draftGarment(demo, incoming, index % 5 < 3 ? "coat" : "pants", rack));
    }
    const kinds: SingleKind[] = ["hood", "hood", "glove-pair", "glove-pair", "helmet", "boot-pair"];
    draftSingles(demo, incoming, [...kinds, ...kinds, ...kinds], rack);
    await bringIn(demo, department, incoming, rack);
  }
  return pool;
}
