import { beforeAll, describe, expect, test } from "vitest";
import { giveRoleAct } from "../../server/cases/account-acts.ts";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { openEventAct } from "../../server/cases/event-acts.ts";
import { listMembersAct, namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type {
  ContaminantsShown,
  EventPage,
  HeldThen,
} from "../../server/domain/contamination/event-views.ts";
import type { BagShown } from "../../server/domain/custody/bag-views.ts";
import type { EventId, MemberId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { MemberPage } from "../../server/domain/page-views.ts";
import type { PieceView } from "../../server/domain/piece-view.ts";
import type { Role } from "../../server/domain/register/account.ts";
import type { Instant } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { anAct, oneOfEachRole, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const [station, isolation, bag] = [anId<PlaceId>(), anId<PlaceId>(), anId<PlaceId>()];
const mirela = anId<MemberId>();
const event = anId<EventId>();
let house: Department;
let app: TestApp;
let people: ReadonlyMap<Role, SignedIn>;
let [hood, second, helmet] = ["", "", ""] as PieceId[] as [PieceId, PieceId, PieceId];

const at = (time: string) => `2026-03-02T${time}Z`;

async function issued(member: MemberId, set: string, when: string, kind = "hood"): Promise<PieceId> {
  const draft = aDraft(kind, house.rack);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, at("09:10:00"));
  const to = { kind: "member" as const, id: member };
  await house.inez.must(movePiecesAct, { pieces: scanned(draft.id), to, purpose: "issue", set }, when);
  return draft.id;
}
async function asked<Answer>(role: Role, path: string): Promise<Answer> {
  const response = await app.send("GET", path, { cookie: people.get(role)?.cookie });
  if (response.status !== 200) throw new Error(`${path}: ${response.status} ${await response.text()}`);
  return (await response.json()) as Answer;
}
async function act(signedIn: SignedIn | undefined, command: string, body: object): Promise<number> {
  const given = { cookie: signedIn?.cookie, body: anAct(app, body) };
  return (await app.send("POST", `/api/acts/${command}`, given)).status;
}
const pageFor = (role: Role) => asked<EventPage>(role, `/api/events/${event}`);

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock("2026-03-02T13:00:00Z").now);
  people = await oneOfEachRole(app);
  const { inez, corwin } = house;
  await inez.must(namePlaceAct, { id: station, name: "Station 2", what: "station", carries: "apart" });
  await inez.must(namePlaceAct, {
    id: isolation,
    name: "Isolation rack",
    what: "isolation",
    carries: "shared",
  });
  await inez.must(namePlaceAct, { id: bag, name: "Bag 217", what: "bag", carries: "closed" });
  await inez.must(listMembersAct, {
    members: [{ id: mirela, number: "0377", name: "Mirela Ferro", station }],
  });
  const officer = people.get("company officer");
  const member = people.get("member");
  if (officer) await inez.must(giveRoleAct, { account: officer.account, role: "company officer", station });
  if (member) await inez.must(giveRoleAct, { account: member.account, role: "member", member: mirela });
  hood = await issued(mirela, "front-line set", at("09:30:00"));
  second = await issued(mirela, "second set", at("09:31:00"));
  helmet = await issued(corwin, "front-line set", at("09:32:00"), "helmet");
  await inez.must(
    openEventAct,
    {
      id: event,
      event: {
        name: "the Kettle Yard fire",
        from: Date.parse(at("10:00:00")) as Instant,
        to: Date.parse(at("11:00:00")) as Instant,
        where: "Kettle Yard",
        incident: "26-0117",
        kinds: ["fire-products", "asbestos"],
      },
      members: [{ member: mirela, set: "front-line set" }, { member: corwin }],
      pieces: [hood, helmet].map((piece) => ({ piece, evidence: "presumed" as const })),
      note: "Roof sheets broke.",
    },
    at("11:30:00"),
  );
});

describe("members on the list of an event", () => {
  const namesFor = async (role: Role) => {
    const { members, pieces } = await pageFor(role);
    return [members.map(({ name }) => name), pieces.map(({ holder }) => holder.name).sort()];
  };

  test("are named to the program manager and the technician, who call the gear in", async () => {
    for (const role of ["program manager", "technician"] as const) {
      expect(await namesFor(role)).toEqual([
        ["Mirela Ferro", "Corwin Bask"],
        ["Corwin Bask", "Mirela Ferro"],
      ]);
    }
  });

  test("are named to a company officer at the own station alone", async () => {
    expect(await namesFor("company officer")).toEqual([
      ["Mirela Ferro", "Member 214"],
      ["Member 214", "Mirela Ferro"],
    ]);
  });

  test("are numbers to inspectors and readers, on the list and wherever a piece is with them", async () => {
    for (const role of ["inspector", "reader"] as const) {
      expect(await namesFor(role)).toEqual([
        ["Member 0377", "Member 214"],
        ["Member 0377", "Member 214"],
      ]);
    }
  });

  test("are listed to no member: the page is not theirs, and their own page says that they were there", async () => {
    const cookie = people.get("member")?.cookie;
    expect((await app.send("GET", `/api/events/${event}`, { cookie })).status).toBe(403);
    const own = await asked<MemberPage>("member", `/api/members/${mirela}`);
    expect(own.events).toMatchObject([
      {
        event: { name: "the Kettle Yard fire" },
        incident: "26-0117",
        set: "front-line set",
        kinds: ["Fire products", "Asbestos"],
      },
    ]);
  });

  test("see who looked at the list, once for each sitting", async () => {
    await pageFor("reader");
    await pageFor("reader");
    const own = await asked<MemberPage>("member", `/api/members/${mirela}`);
    const looks = own.viewings.filter((viewing) => viewing.event?.id === event);
    expect(looks.map(({ by }) => by.detail).sort()).toEqual([
      "company officer",
      "inspector",
      "program manager",
      "reader",
      "technician",
    ]);
  });

  test("are not told of on a member's page to those who are shown no names at an event", async () => {
    expect((await asked<MemberPage>("reader", `/api/members/${mirela}`)).events).toEqual([]);
    expect((await asked<MemberPage>("technician", `/api/members/${mirela}`)).events).toHaveLength(1);
  });
});

describe("an event's page", () => {
  test("tells what was there, how that is known, where it is now, and what is still asked", async () => {
    const page = await pageFor("technician");
    expect(page).toMatchObject({
      event: { name: "the Kettle Yard fire", members: 2, pieces: 2, held: 2, where: "Kettle Yard" },
      note: "Roof sheets broke.",
      isolation: [{ name: "Isolation rack" }],
    });
    const one = page.pieces.find(({ id }) => id === hood);
    expect(one).toMatchObject({
      evidence: "presumed",
      hold: expect.any(Number),
      open: ["fire-products", "asbestos"],
      within: { name: "Station 2" },
    });
    expect(page.rules.map(({ code }) => code)).toEqual(["fire-products", "asbestos"]);
  });

  test("is not there for another id", async () => {
    const cookie = people.get("reader")?.cookie;
    expect((await app.send("GET", `/api/events/${anId<EventId>()}`, { cookie })).status).toBe(404);
  });
});

test("what a member held then is proposed by set: one tap says which was worn", async () => {
  const query = `members=${mirela},${house.corwin}&from=${at("10:00:00")}&to=${at("11:00:00")}`;
  const { members } = await asked<{ members: HeldThen[] }>("technician", `/api/held-then?${query}`);
  expect(members[0]).toEqual({
    member: mirela,
    name: "Mirela Ferro",
    sets: [
      { set: "front-line set", pieces: [hood] },
      { set: "second set", pieces: [second] },
    ],
    loose: [],
  });
  const before = `members=${mirela}&from=${at("08:00:00")}&to=${at("09:00:00")}`;
  const then = await asked<{ members: HeldThen[] }>("technician", `/api/held-then?${before}`);
  expect(then.members[0]?.sets).toEqual([]);
});

test("a piece on hold says which event, and which cleaning would end it", async () => {
  const view = await asked<PieceView>("technician", `/api/pieces/${hood}`);
  expect(view.asks).toMatchObject([
    {
      event: { name: "the Kettle Yard fire" },
      open: [
        { code: "fire-products", endedBy: ["advanced cleaning", "specialised cleaning"] },
        { code: "asbestos" },
      ],
    },
  ]);
  expect(view.asks?.[0]?.open[1]).not.toHaveProperty("endedBy");
  expect(view.names[event]?.name).toBe("the Kettle Yard fire");
});

describe("a bag dropped after hours", () => {
  test("is packed by a bare badge with what the event says was worn, and waits with its age", async () => {
    const badge = await app.signedInAs("member", "badge");
    expect(await act(badge, "packBag", { bag, member: mirela })).toBe(200);
    const { bags } = await asked<{ bags: BagShown[] }>("technician", "/api/bags");
    expect(bags[0]).toMatchObject({
      name: "Bag 217",
      pieces: 1,
      presumed: 1,
      members: [{ name: "Mirela Ferro" }],
      events: [{ name: "the Kettle Yard fire" }],
    });
    const forReader = await asked<{ bags: BagShown[] }>("reader", "/api/bags");
    expect(forReader.bags[0]?.members).toMatchObject([{ name: "Member 0377" }]);
  });

  test("is opened at the bench: found, and the second set that came with it, and nothing by a bare badge", async () => {
    const found = [hood, second].map((piece) => ({ piece, evidence: "scanned" }));
    const badge = await app.signedInAs("technician", "badge");
    expect(await act(badge, "openBag", { bag, found })).toBe(403);
    expect(await act(people.get("technician"), "openBag", { bag, found })).toBe(200);
    const page = await pageFor("technician");
    const seen = page.pieces.filter(({ evidence }) => evidence === "scanned").map(({ id }) => id);
    expect(seen.sort()).toEqual([hood, second].sort());
    const { bags } = await asked<{ bags: BagShown[] }>("technician", "/api/bags");
    expect(bags[0]).toMatchObject({ pieces: 2, presumed: 0 });
  });

  test("gets the next short number where bags are named anew", async () => {
    const bags = [anId<PlaceId>(), anId<PlaceId>()];
    expect(await act(people.get("technician"), "makeBags", { bags, within: station })).toBe(200);
    const listed = await asked<{ bags: BagShown[] }>("technician", "/api/bags");
    expect(listed.bags.map(({ name }) => name)).toEqual(["Bag 217", "Bag 218", "Bag 219"]);
  });
});

test("what kinds ask for is shown with its source, and each change with who made it", async () => {
  const before = await asked<ContaminantsShown>("reader", "/api/contaminants");
  const [rule] = before.rules;
  if (!rule) throw new Error("There is no rule.");
  expect([rule.code, rule.isOwn, before.history]).toEqual(["fire-products", false, []]);
  const { isOwn: _, ...facts } = rule;
  const share = { says: "yes", source: "procedure 12", confirmed: true } as const;
  const body = {
    rule: { ...facts, asks: { ...facts.asks, "share a load": share } },
    note: "Board of 2 March",
  };
  expect(await act(people.get("technician"), "ruleContaminant", body)).toBe(403);
  expect(await act(people.get("program manager"), "ruleContaminant", body)).toBe(200);
  const after = await asked<ContaminantsShown>("reader", "/api/contaminants");
  expect(after.rules[0]).toMatchObject({ isOwn: true, asks: { "share a load": share } });
  expect(after.history).toMatchObject([{ note: "Board of 2 March", by: { kind: "account" } }]);
});
