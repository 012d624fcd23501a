import { giveBadgeAct, openAccountAct } from "../../server/cases/account-acts.ts";
import { installLayerAct, movePiecesAct } from "../../server/cases/bench-acts.ts";
import { hashSecret } from "../../server/cases/hash-secret.ts";
import { listMembersAct, namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { describeModelsAct, setSettingsAct } from "../../server/cases/rule-acts.ts";
import { setUp } from "../../server/cases/set-up.ts";
import { attachTagsAct, drawCardsAct, printTagsAct, reserveTagsAct } from "../../server/cases/tag-acts.ts";
import type { AccountId, MemberId, ModelId, PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { SignInName } from "../../server/domain/people/secrets.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import type { PieceDraft } from "../../server/domain/register/register-pieces.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { YearMonth } from "../../server/domain/time.ts";
import type { Db } from "../../server/store/db.ts";
import { keepSecrets } from "../../server/store/keep-secrets.ts";
import { type Actor, actor, aDraft, anId } from "./acting.ts";

export const PASSPHRASE = "eight hooks in the cage";

/** Who signs in, with the PIN of the shared bench. */
export const STAFF = {
  odile: { name: "Odile Verrill", role: "program manager", pin: "1701" },
  inez: { name: "Inez Calloway", role: "technician", pin: "2402" },
  tobin: { name: "Tobin Achterberg", role: "technician", pin: "3303" },
} as const;
export type StaffName = keyof typeof STAFF;

const PLACES = [
  ["Gear cage", "cage", "apart"],
  ["Station 1", "station", "apart"],
  ["Station 2", "station", "apart"],
  ["Rack B2", "rack", "shared"],
  ["Intake rack", "rack", "shared"],
  ["Isolation rack", "isolation", "shared"],
  ["Bag 219", "bag", "closed"],
] as const;
const MEMBERS = ["Corwin Bask", "Mirela Ferro", "Petra Oxholm", "Hollis Underhay"] as const;

/** A coat shell that takes LK-2; its size and pattern are those that a liner must have. */
const SHELL: MakersLabel = {
  ...{ maker: "Tarnholt", modelName: "K7", size: "46 32 R", pattern: "M" },
  ...{ linerCode: "LK-2", madeOn: "2022-03" as YearMonth },
};
const LINER: MakersLabel = SHELL;
const DRD: MakersLabel = { ...SHELL, linerCode: "D-1", size: "one size" };

const HOOD: MakersLabel = { maker: "Corrin Mills", modelName: "Shroud 2", size: "one size" };

/** Every tagged piece, by what a story calls it: kind, label, and the shell that it is fitted in. */
const PIECES: readonly (readonly [string, string, MakersLabel, string?])[] = [
  ["loose shell", "coat-shell", SHELL],
  ["right liner", "coat-liner", LINER],
  ["wrong liner", "coat-liner", { ...LINER, linerCode: "LK-3", size: "44 32 R" }],
  ["shell of the first bench", "coat-shell", SHELL],
  ["shell of the second bench", "coat-shell", SHELL],
  ["wanted liner", "coat-liner", LINER],
  ...coat("coat"),
  ...coat("worn coat"),
  ["bare shell", "coat-shell", SHELL],
  ["hood", "hood", HOOD],
  ...[1, 2, 3, 4, 5].map((nth): [string, string, MakersLabel] => [`hood ${nth}`, "hood", HOOD]),
  ["helmet", "helmet", { maker: "Osgar Pell", modelName: "Dome T", size: "one size" }],
];

function coat(name: string): [string, string, MakersLabel, string?][] {
  return [
    [`${name} shell`, "coat-shell", SHELL],
    [`${name} liner`, "coat-liner", LINER, `${name} shell`],
    [`${name} DRD`, "drd", DRD, `${name} shell`],
  ];
}

/** A small department that is at work: what its cards, badges and tags read, by what a story calls them. */
export interface SeededDepartment {
  /** Every number that a scanner can read: of a piece, a place, a member, a person's badge, an action. */
  readonly number: (name: string) => TagNumber;
  readonly piece: (name: string) => PieceId;
  readonly member: (name: string) => MemberId;
  /** The tags of all pieces, in the order of the register. */
  readonly tags: readonly TagNumber[];
}

/** Founds two stations, four members, a model table and 20 tagged pieces, by the same acts as the bench. */
export async function seedDepartment(db: Db): Promise<SeededDepartment> {
  const yesterday = new Date(Date.now() - 86_400_000).toISOString();
  await setUp(db, { nowMs: Date.parse(yesterday), appBuild: "test", timeZone: "America/Chicago" });
  const odile = actor(() => db, "program manager", yesterday);
  await odile.must(setSettingsAct, { settings: { "department name": "Harrow County Fire & Rescue" } });
  const accounts = await openAccounts(db, odile);
  const places = await namePlaces(odile);
  const members = await listMembers(odile, places);
  await describeModel(odile);
  const rack = of(places, "Rack B2");
  const pieces = await registerPieces(odile, rack);
  await odile.must(drawCardsAct, { places: [...places.values()], members: [...members.values()] });
  await tagAll(db, odile, [...pieces.values()]);
  await odile.must(movePiecesAct, {
    pieces: [{ piece: of(pieces, "worn coat shell"), evidence: "scanned" }],
    to: { kind: "member", id: of(members, "Mirela Ferro") },
    purpose: "issue",
  });
  const subjects = new Map<string, Uuid>([...accounts, ...places, ...members, ...pieces]);
  const numbers = await readNumbers(db, subjects);
  return {
    number: (name) => of(numbers, name),
    piece: (name) => of(pieces, name),
    member: (name) => of(members, name),
    tags: [...pieces.keys()].map((name) => of(numbers, name)),
  };
}

function of<Value>(known: ReadonlyMap<string, Value>, name: string): Value {
  const found = known.get(name);
  if (found === undefined) throw new Error(`The department has no ${name}.`);
  return found;
}

async function openAccounts(db: Db, odile: Actor): Promise<Map<string, AccountId>> {
  const passphrase = await hashSecret(PASSPHRASE);
  const accounts = new Map<string, AccountId>();
  for (const [signInName, { name, role, pin }] of Object.entries(STAFF)) {
    const account = signInName === "odile" ? odile.by : anId<AccountId>();
    await odile.must(openAccountAct, { account, role, name });
    await odile.must(giveBadgeAct, { account });
    const secrets = { signInName: signInName as SignInName, passphrase, pin: await hashSecret(pin) };
    await keepSecrets(db, account, secrets);
    accounts.set(name, account);
  }
  return accounts;
}

async function namePlaces(odile: Actor): Promise<Map<string, PlaceId>> {
  const places = new Map<string, PlaceId>();
  for (const [name, what, carries] of PLACES) {
    const id = anId<PlaceId>();
    await odile.must(namePlaceAct, { id, name, what, carries });
    places.set(name, id);
  }
  return places;
}

async function listMembers(
  odile: Actor,
  places: ReadonlyMap<string, PlaceId>,
): Promise<Map<string, MemberId>> {
  const members = MEMBERS.map((name, index) => ({
    ...{ id: anId<MemberId>(), name, number: String(214 + index), shift: "A" },
    station: of(places, index % 2 === 0 ? "Station 1" : "Station 2"),
  }));
  await odile.must(listMembersAct, { members });
  return new Map(members.map(({ name, id }) => [name, id]));
}

async function describeModel(odile: Actor): Promise<void> {
  const takes = [
    { layerKind: "coat-liner", takesLinerCode: "LK-2" },
    { layerKind: "drd", takesLinerCode: "D-1" },
  ];
  const model = { id: anId<ModelId>(), maker: "Tarnholt", name: "K7", kind: "coat-shell", takes };
  const source = { what: "maker's letter" as const };
  await odile.must(describeModelsAct, { models: [{ ...model, layers: ["coat-liner", "drd"], source }] });
}

async function registerPieces(odile: Actor, rack: PlaceId): Promise<Map<string, PieceId>> {
  const drafts = PIECES.map(([, kind, label]): PieceDraft => ({ ...aDraft(kind, rack), label }));
  await odile.must(registerPiecesAct, { pieces: drafts, evidence: "scanned" });
  const pieces = new Map(PIECES.map(([name], index) => [name, drafts[index]?.id ?? anId<PieceId>()]));
  for (const [name, , , shell] of PIECES) {
    if (!shell) continue;
    const fitting = { shell: of(pieces, shell), layer: of(pieces, name) };
    await odile.must(installLayerAct, { ...fitting, evidence: "scanned" });
  }
  return pieces;
}

/** Prints a tag for each piece and scans it back: all are live after it. */
async function tagAll(db: Db, odile: Actor, pieces: readonly PieceId[]): Promise<void> {
  const run = anId<Uuid>();
  await odile.must(reserveTagsAct, { run, pieces });
  await odile.must(printTagsAct, { run });
  const printed = await db.selectFrom("tag").select(["number", "meant_for"]).where("run", "=", run).execute();
  const tags = printed.map(({ number, meant_for }) => ({
    piece: meant_for as PieceId,
    number: number as TagNumber,
    position: "main",
    proof: "scanned" as const,
  }));
  await odile.must(attachTagsAct, { tags });
}

async function readNumbers(db: Db, subjects: ReadonlyMap<string, Uuid>): Promise<Map<string, TagNumber>> {
  const cards = await db.selectFrom("numbered").select(["number", "subject"]).execute();
  const tags = await db.selectFrom("tag").select(["number", "piece"]).execute();
  const bySubject = new Map<string, string>(cards.map(({ number, subject }) => [subject, number]));
  for (const { number, piece } of tags) if (piece) bySubject.set(piece, number);
  const named = [...subjects].flatMap(([name, id]): [string, TagNumber][] => {
    const number = bySubject.get(id);
    return number ? [[name, number as TagNumber]] : [];
  });
  const { value } = await db
    .selectFrom("setting")
    .select("value")
    .where("name", "=", "action cards")
    .executeTakeFirstOrThrow();
  const actions = Object.entries(value as Record<string, TagNumber>);
  return new Map([...named, ...actions]);
}
