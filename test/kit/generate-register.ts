import { type Kysely, sql } from "kysely";
import type { Database } from "../../db/schema/database.ts";
import { type ActEnvelope, runAct } from "../../server/cases/run-act.ts";
import type { AccountId, ActId, ModelId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { ModelFacts } from "../../server/domain/register/model.ts";
import { POLICY_ID } from "../../server/domain/register/policy.ts";
import { STANDARD_KINDS } from "../../server/domain/register/standard-kinds.ts";
import type { NewEntry } from "../../server/domain/subjects.ts";
import type { Instant } from "../../server/domain/time.ts";
import {
  GENERATED_ACTS,
  GENERATED_ENTRIES,
  GENERATED_PIECES,
  GENERATED_TABLES,
} from "./generated/generate-pieces.ts";

/** Pieces of one set: shell, liner and DRD of the coat, shell and liner of the pants, hood, helmet, gloves, boots. */
export const PIECES_A_SET = 9;

export interface GeneratedRegister {
  readonly account: AccountId;
  readonly sets: number;
  readonly pieces: number;
  readonly entries: number;
  readonly acts: number;
}

/**
 * Fills an empty migrated database with a department of so many sets, in SQL: pieces, tags, fittings, moves, cleanings,
 * all as entries in one chain, and the tables that follow from them. Needs the owner's role, because foreign keys are
 * put aside while millions of rows come in and are checked in bulk after. A test holds it to the fold and the chain.
 * 35,556 sets make 320,004 pieces and just over 3,000,000 entries. The same call makes the same rows.
 */
export async function generateRegister(owner: Kysely<Database>, sets: number): Promise<GeneratedRegister> {
  const account = madeId(1, 1) as AccountId;
  await writeReference(owner, account, sets);
  await owner.connection().execute(async (connection) => {
    const constants = { sets, members: membersFor(sets), racks: racksFor(sets), account };
    await setConstants(connection, constants);
    for (const statement of [GENERATED_PIECES, GENERATED_ACTS, GENERATED_ENTRIES, GENERATED_TABLES].flat()) {
      await sql.raw(statement).execute(connection);
    }
  });
  const counts = await sql<{ pieces: number; entries: number; acts: number }>`select
    (select count(*) from piece) as pieces, (select count(*) from entry) as entries,
    (select count(*) from act) as acts`.execute(owner);
  const counted = counts.rows[0] ?? { pieces: 0, entries: 0, acts: 0 };
  return { account, sets, ...counted };
}

function membersFor(sets: number): number {
  return Math.max(1, Math.min(20_000, Math.ceil(sets * 0.5625)));
}

function racksFor(sets: number): number {
  return Math.max(4, Math.min(400, Math.ceil(sets / 80)));
}

async function setConstants(
  connection: Kysely<Database>,
  { sets, members, racks, account }: { sets: number; members: number; racks: number; account: string },
): Promise<void> {
  await sql`create temp table generated as select ${sets}::int as sets, ${members}::int as members,
    ${racks}::int as racks, ${account}::uuid as account`.execute(connection);
}

/** Ids of the reference subjects are told by series and number; generated/generate-pieces.ts counts on the form. */
export function madeId(series: number, count: number): Uuid {
  return `018f0000-0000-7000-8000-${series.toString(16).padStart(4, "0")}${count.toString(16).padStart(8, "0")}` as Uuid;
}

async function writeReference(owner: Kysely<Database>, account: AccountId, sets: number): Promise<void> {
  const people = membersFor(sets);
  const entries: NewEntry[] = [
    {
      subjectKind: "policy",
      subject: POLICY_ID,
      entry: { kind: "SettingSet", name: "time zone", value: "America/Chicago" },
    },
    {
      subjectKind: "account",
      subject: account,
      entry: { kind: "AccountOpened", account: { role: "technician" } },
    },
    ...STANDARD_KINDS.map((describes, index): NewEntry => {
      return {
        subjectKind: "kind",
        subject: madeId(2, index + 1),
        entry: { kind: "KindDescribed", describes },
      };
    }),
    ...models(account),
    ...places(racksFor(sets)),
    ...Array.from({ length: people }, (_, index): NewEntry => {
      const station = madeId(5, 1 + (index % 12)) as PlaceId;
      const member = { number: String(1000 + index), station, shift: "ABC"[index % 3] ?? "A" };
      return {
        subjectKind: "member",
        subject: madeId(6, index + 1),
        entry: { kind: "MemberListed", member },
      };
    }),
  ];
  for (let start = 0; start < entries.length; start += 2000) {
    await write(owner, account, entries.slice(start, start + 2000), start);
  }
  await sql`insert into person (id, name) select ('018f0000-0000-7000-8000-0006' || lpad(to_hex(i), 8, '0'))::uuid,
    (array['Corwin', 'Odile', 'Tobin', 'Mirela', 'Petra', 'Inez', 'Anselm', 'Brigid', 'Dario', 'Esme'])[1 + i % 10]
    || ' ' || (array['Bask', 'Verrill', 'Achterberg', 'Ferro', 'Oxholm', 'Calloway', 'Lindqvist', 'Marsh', 'Quill',
    'Rourke', 'Stroud', 'Tamm', 'Vance'])[1 + (i / 10) % 13] || ' ' || i from generate_series(1, ${people}) i
    union all select ${account}::uuid, 'Inez Calloway'`.execute(owner);
}

function models(account: AccountId): NewEntry[] {
  const facts = { maker: "Tarnholt", source: { what: "maker's letter" as const, by: account } };
  const shells: readonly [string, string, readonly string[]][] = [
    ["K7 coat", "coat-shell", ["coat-liner", "drd"]],
    ["K7 pants", "pants-shell", ["pants-liner"]],
  ];
  return shells.map(([name, kind, layers], index): NewEntry => {
    const takes: ModelFacts["takes"] = layers.map((layerKind) => ({
      layerKind,
      takesLinerCode: layerKind === "drd" ? "D-1" : "LK-2",
    }));
    const model: ModelFacts = { ...facts, name, kind, layers, takes };
    return {
      subjectKind: "model",
      subject: madeId(3, index + 1) as ModelId,
      entry: { kind: "ModelDescribed", model },
    };
  });
}

function places(racks: number): NewEntry[] {
  const named = (
    subject: Uuid,
    place: Extract<NewEntry, { subjectKind: "place" }>["entry"] & { kind: "PlaceNamed" },
  ): NewEntry => {
    return { subjectKind: "place", subject, entry: place };
  };
  const cage = madeId(5, 100) as PlaceId;
  return [
    ...Array.from({ length: 12 }, (_, index) =>
      named(madeId(5, index + 1), {
        kind: "PlaceNamed",
        place: { name: `Station ${index + 1}`, what: "station", carries: "apart" },
      }),
    ),
    named(cage, { kind: "PlaceNamed", place: { name: "Gear cage", what: "cage", carries: "apart" } }),
    named(madeId(5, 101), {
      kind: "PlaceNamed",
      place: { name: "Isolation rack", what: "isolation", carries: "shared", side: "soiled", within: cage },
    }),
    ...Array.from({ length: racks }, (_, index) =>
      named(madeId(7, index + 1), {
        kind: "PlaceNamed",
        place: { name: `Rack ${index + 1}`, what: "rack", carries: "shared", within: cage },
      }),
    ),
  ];
}

async function write(
  owner: Kysely<Database>,
  by: AccountId,
  entries: NewEntry[],
  series: number,
): Promise<void> {
  const at = Date.UTC(2024, 0, 1) as Instant;
  const envelope: ActEnvelope = {
    ...{
      id: madeId(8, series + 1) as string as ActId,
      by,
      role: "program manager",
      device: "generator",
      deviceSeq: series,
    },
    ...{ appBuild: "generator", at, atOffsetMin: -360, sentAt: at },
  };
  const outcome = await runAct(
    owner,
    { name: "generate", rules: "exclusive", decide: async () => ({ entries }) },
    { series },
    envelope,
  );
  if ("refusals" in outcome) throw new Error(`Not generated: ${JSON.stringify(outcome.refusals)}`);
}
