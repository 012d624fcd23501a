import { openAccountAct } from "../../server/cases/account-acts.ts";
import {
  compareByEyeAct,
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
  recordCleaningAct,
  recordFoundAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { openEventAct, ruleContaminantAct } from "../../server/cases/event-acts.ts";
import { endLoadAct, startLoadAct } from "../../server/cases/load-acts.ts";
import { checkMachineAct, wipePlaceAct } from "../../server/cases/machine-acts.ts";
import { nameOutsideAct, nameProviderAct } from "../../server/cases/party-acts.ts";
import { findPropertyAct } from "../../server/cases/property-acts.ts";
import {
  bindForeignCodeAct,
  describeKindAct,
  listMembersAct,
  namePlaceAct,
  registerPiecesAct,
} from "../../server/cases/register-acts.ts";
import { describeModelsAct, recordAcceptanceAct, setSettingsAct } from "../../server/cases/rule-acts.ts";
import { attachTagAct, printTagsAct, reserveTagsAct } from "../../server/cases/tag-acts.ts";
import { keepTraceAct, recordOutcomeAct } from "../../server/cases/trace-acts.ts";
import { STARTING_CONTAMINANTS } from "../../server/domain/contamination/starting-contaminants.ts";
import type {
  EventId,
  LoadId,
  MemberId,
  ModelId,
  OutsideId,
  PieceId,
  PlaceId,
  ProviderId,
  Uuid,
} from "../../server/domain/ids.ts";
import { STANDARD_KINDS } from "../../server/domain/register/standard-kinds.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { Instant, LocalDate } from "../../server/domain/time.ts";
import type { Db } from "../../server/store/db.ts";
import { type Actor, actor, aDraft, anId } from "./acting.ts";
import { aWasher } from "./machines.ts";

/** Kinds, a model, two racks and a member: what acts on pieces need. */
export interface Department {
  readonly inez: Actor;
  readonly rack: PlaceId;
  readonly bench: PlaceId;
  readonly corwin: MemberId;
}
/** A department in which something has happened: every table that follows from the ledger has a row. */
export interface LivelyDepartment extends Department {
  readonly shell: PieceId;
  readonly liner: PieceId;
  readonly hood: PieceId;
}

export const scanned = (...pieces: PieceId[]) =>
  pieces.map((piece) => ({ piece, evidence: "scanned" as const }));

export async function openDepartment(db: () => Db): Promise<Department> {
  const inez = actor(db);
  const [rack, bench, corwin] = [anId<PlaceId>(), anId<PlaceId>(), anId<MemberId>()];
  for (const kind of STANDARD_KINDS) await inez.must(describeKindAct, { id: anId<Uuid>(), ...kind });
  await inez.must(namePlaceAct, { id: rack, name: "Rack B2", what: "rack", carries: "shared" });
  await inez.must(namePlaceAct, { id: bench, name: "Bench 1", what: "bench", carries: "shared" });
  await inez.must(listMembersAct, { members: [{ id: corwin, number: "214", name: "Corwin Bask" }] });
  const takes = [{ layerKind: "coat-liner", takesLinerCode: "LK-2" }];
  const model = { id: anId<ModelId>(), maker: "Tarnholt", name: "K7", kind: "coat-shell", takes };
  const source = { what: "maker's letter" as const };
  await inez.must(describeModelsAct, { models: [{ ...model, layers: ["coat-liner"], source }] });
  return { inez, rack, bench, corwin };
}

export async function liveIn(db: () => Db): Promise<LivelyDepartment> {
  const department = await openDepartment(db);
  const { inez, rack, bench, corwin } = department;
  const drafts = [
    aDraft("coat-shell", rack),
    aDraft("coat-liner", rack, { linerCode: "LK-2" }),
    aDraft("hood", rack),
  ] as const;
  await inez.must(registerPiecesAct, { pieces: drafts, evidence: "typed" });
  const [shell, liner, hood] = [drafts[0].id, drafts[1].id, drafts[2].id];
  await inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
  await tagged(db, inez, shell);
  await inez.must(movePiecesAct, {
    pieces: scanned(shell),
    to: { kind: "member", id: corwin },
    purpose: "issue",
  });
  await inez.must(placeHoldAct, { pieces: [hood], hold: "finding", note: "torn at the seam" });
  await inez.must(recordFoundAct, { pieces: scanned(hood), holder: { kind: "place", id: bench } });
  const back = { to: { kind: "place", id: bench } as const, purpose: "turn in" as const, soiled: true };
  await inez.must(movePiecesAct, { pieces: scanned(shell), ...back });
  await inez.must(separateLayersAct, { pieces: scanned(liner) });
  await inez.must(compareByEyeAct, { shell, layer: liner });
  await inez.must(bindForeignCodeAct, { piece: hood, code: "TARN-000481" });
  await saidAndSet(department, { shell, liner });
  await fire(department);
  await inez.must(recordCleaningAct, { pieces: scanned(liner), how: "advanced cleaning" });
  await washed(department, shell);
  await traced(department, hood, shell);
  return { ...department, shell, liner, hood };
}

/** A trace of what the hood may have reached on the rack, kept, with an outcome. */
async function traced({ inez }: Department, hood: PieceId, shell: PieceId): Promise<void> {
  const trace = anId<Uuid>();
  const at = Date.parse("2026-03-02T09:00:30Z") as Instant;
  const start = { kind: "pieces" as const, pieces: [hood], at };
  const asked = { start, direction: "forward" as const, hops: 2, carriers: ["closed", "shared"] as const };
  await inez.must(keepTraceAct, { id: trace, name: "a hood", isDrill: false, asked });
  await inez.must(recordOutcomeAct, { trace, pieces: scanned(shell), outcome: "found" });
}

/** A washer with its programme and a check, a load that ran in it, a bench that was wiped, and a knife left in a hood. */
async function washed({ inez, bench, rack }: Department, shell: PieceId): Promise<void> {
  const washer = await aWasher(inez);
  await inez.must(checkMachineAct, { machine: washer.machine, outcome: "in order" });
  const load = anId<LoadId>();
  await inez.must(startLoadAct, { load, machine: washer.machine, pieces: scanned(shell) });
  await inez.must(endLoadAct, { load, outcome: "as programmed" });
  await inez.must(wipePlaceAct, { place: bench, evidence: "scanned" });
  await inez.must(findPropertyAct, { piece: shell, evidence: "scanned", what: "a folding knife" });
  const to = { kind: "place" as const, id: rack };
  await inez.must(movePiecesAct, { pieces: scanned(shell), to, purpose: "transfer" });
}

async function saidAndSet({ inez }: Department, scope: { shell: PieceId; liner: PieceId }): Promise<void> {
  await inez.must(nameProviderAct, { id: anId<ProviderId>(), name: "Saltmarsh Textile Care" });
  await inez.must(nameOutsideAct, { id: anId<OutsideId>(), name: "County hospital", what: "hospital" });
  await inez.must(recordAcceptanceAct, {
    id: anId<Uuid>(),
    scope: { what: "pieces", shell: scope.shell, layer: scope.liner },
    saidBy: "maker",
    saidByName: "Tarnholt",
    document: "letter of 2 March",
    saidOn: "2026-03-02" as LocalDate,
  });
  await inez.must(setSettingsAct, { settings: { "time zone": "America/Chicago" } });
  await inez.must(openAccountAct, { account: inez.by, role: "technician", name: "Inez Calloway" });
}

async function fire({ inez, corwin, rack }: Department): Promise<void> {
  const [rule] = STARTING_CONTAMINANTS;
  if (!rule) throw new Error("A department starts with no kind of contaminant.");
  await inez.must(ruleContaminantAct, { rule });
  const helmet = aDraft("helmet", rack);
  await inez.must(registerPiecesAct, { pieces: [helmet], evidence: "typed" });
  const from = Date.parse("2026-03-02T09:00:05Z") as Instant;
  const to = (from + 4000) as Instant;
  await inez.must(openEventAct, {
    id: anId<EventId>(),
    event: { name: "the Kettle Yard fire", from, to, kinds: [rule.code], incident: "26-0117" },
    members: [{ member: corwin, set: "first set" }],
    pieces: [{ piece: helmet.id, evidence: "described" }],
  });
}

async function tagged(db: () => Db, inez: Actor, piece: PieceId): Promise<void> {
  const run = anId<Uuid>();
  await inez.must(reserveTagsAct, { run, pieces: [piece] });
  await inez.must(printTagsAct, { run });
  const tag = await db().selectFrom("tag").select("number").where("run", "=", run).executeTakeFirstOrThrow();
  const number = tag.number as TagNumber;
  await inez.must(attachTagAct, { piece, number, position: "main", proof: "scanned" });
}
