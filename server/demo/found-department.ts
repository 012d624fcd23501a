import { giveBadgeAct, openAccountAct } from "../cases/account-acts.ts";
import { hashSecret } from "../cases/hash-secret.ts";
import { nameOutsideAct, nameProviderAct } from "../cases/party-acts.ts";
import { listMembersAct, namePlaceAct } from "../cases/register-acts.ts";
import { describeModelsAct, setSettingsAct } from "../cases/rule-acts.ts";
import { SYSTEM_ACCOUNT } from "../cases/system-account.ts";
import { drawCardsAct } from "../cases/tag-acts.ts";
import type {
  AccountId,
  MachineId,
  MemberId,
  ModelId,
  OutsideId,
  PlaceId,
  ProviderId,
} from "../domain/ids.ts";
import type { LocalDate } from "../domain/time.ts";
import { keepSecrets } from "../store/keep-secrets.ts";
import { type Demo, must, type Worker } from "./hands.ts";
import {
  DEPARTMENT,
  MODELS,
  memberNames,
  PLACES,
  SHIFTS,
  STAFF,
  STATIONS,
  TIME_ZONE,
} from "./harrow-county.ts";
import { equipWashRoom } from "./wash-room.ts";

/** The passphrase of everybody in the demo. A demo holds nothing that is anybody's. */
export const DEMO_PASSPHRASE = "harrow county demo";

export interface DemoMember {
  readonly id: MemberId;
  readonly name: string;
  readonly stationIndex: number;
}

/** The people, places and models that the demo's months are played with. */
export interface Department {
  readonly odile: Worker;
  readonly inez: Worker;
  readonly tobin: Worker;
  readonly maren: Worker;
  readonly aldous: Worker;
  readonly places: Readonly<Record<string, PlaceId>>;
  readonly members: readonly DemoMember[];
  readonly provider: ProviderId;
  readonly machines: Readonly<Record<string, MachineId>>;
}

export function placeNamed(department: Department, name: string): PlaceId {
  const place = department.places[name];
  if (!place) throw new Error(`The demo has no place ${name}.`);
  return place;
}

/** Founds the department: settings, staff with sign-in, badge and PIN, places, members, a provider, the model table. */
export async function foundDepartment(demo: Demo): Promise<Department> {
  const system: Worker = { account: SYSTEM_ACCOUNT, role: "program manager" };
  const { clock, chance } = demo;
  clock.at(0, 8);
  const settings = {
    "department name": DEPARTMENT,
    "department code": "HCFR",
    "time zone": TIME_ZONE,
  } as const;
  await must(demo, system, setSettingsAct, { settings });
  const staff = await hireStaff(demo, system);
  const places = await namePlaces(demo, staff[0]);
  const members = await listMembers(demo, staff[0], places);
  const provider = chance.id<ProviderId>(clock.now());
  const verifiedUntil = new Date(clock.now() + 900 * 86_400_000).toISOString().slice(0, 10) as LocalDate;
  await must(demo, staff[0], nameProviderAct, {
    id: provider,
    name: "Saltmarsh Textile Care",
    verifiedUntil,
  });
  const hospital = {
    id: chance.id<OutsideId>(clock.now()),
    name: "Harrow Valley Hospital",
    what: "hospital" as const,
  };
  await must(demo, staff[0], nameOutsideAct, hospital);
  const source = { what: "maker's letter" as const };
  const models = MODELS.map((model) => ({ ...model, id: chance.id<ModelId>(clock.now()), source }));
  await must(demo, staff[3], describeModelsAct, { models });
  await must(demo, staff[0], drawCardsAct, {
    places: Object.values(places),
    members: members.map(({ id }) => id),
  });
  const machines = await equipWashRoom(demo, staff[0], places);
  const [odile, inez, tobin, maren, aldous] = staff;
  return { odile, inez, tobin, maren, aldous, places, members, provider, machines };
}

type Staff = readonly [Worker, Worker, Worker, Worker, Worker, Worker];

async function hireStaff(demo: Demo, system: Worker): Promise<Staff> {
  const { db, clock, chance } = demo;
  const passphrase = await hashSecret(DEMO_PASSPHRASE);
  const workers: Worker[] = [];
  for (const [name, role, signInName, pin] of STAFF) {
    const account = chance.id<AccountId>(clock.now());
    await must(demo, system, openAccountAct, { account, role, name });
    await must(demo, system, giveBadgeAct, { account });
    await keepSecrets(db, account, {
      signInName: signInName as never,
      passphrase,
      pin: await hashSecret(pin),
    });
    workers.push({ account, role });
    clock.pass(5);
  }
  return workers as unknown as Staff;
}

async function namePlaces(demo: Demo, by: Worker): Promise<Record<string, PlaceId>> {
  const places: Record<string, PlaceId> = {};
  for (const [name, what, carries, within, side] of PLACES) {
    const id = demo.chance.id<PlaceId>(demo.clock.now());
    const around = within ? { within: places[within] as PlaceId } : {};
    await must(demo, by, namePlaceAct, { id, name, what, carries, ...around, ...(side ? { side } : {}) });
    places[name] = id;
  }
  return places;
}

async function listMembers(
  demo: Demo,
  by: Worker,
  places: Readonly<Record<string, PlaceId>>,
): Promise<DemoMember[]> {
  const members = memberNames().map((name, index) => ({
    id: demo.chance.id<MemberId>(demo.clock.now()),
    name,
    number: String(201 + index),
    stationIndex: index % STATIONS.length,
    shift: SHIFTS[Math.floor(index / 3) % SHIFTS.length] ?? "A",
  }));
  await must(demo, by, listMembersAct, {
    members: members.map(({ stationIndex, ...member }) => {
      const station = places[STATIONS[stationIndex] ?? "Station 1"];
      return { ...member, ...(station ? { station } : {}) };
    }),
  });
  return members;
}
