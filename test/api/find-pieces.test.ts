import { beforeAll, describe, expect, test } from "vitest";
import { findReady, type PiecesSought, searchPieces } from "../../server/cases/find-pieces.ts";
import { viewPiece } from "../../server/cases/look-up.ts";
import type { Viewer } from "../../server/cases/viewer.ts";
import type { MemberId, ModelId, PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { PieceListed, PiecesFound } from "../../server/domain/page-views.ts";
import type { Instant } from "../../server/domain/time.ts";
import { generateRegister, madeId, PIECES_A_SET } from "../kit/generate-register.ts";
import { aViewer, scan } from "../kit/scanning.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
/** So many that a serial's first symbols are in more pieces than the search counts. */
const SETS = 350;
const db = () => database.app;
let all: readonly PieceListed[];

type Search = (sought: PiecesSought) => Promise<PiecesFound>;
const asTechnician: Search = (sought) => searchPieces(db(), sought, aViewer());

/** Every page of a search, one after the other. */
async function everyPage(
  sought: Partial<PiecesSought>,
  search = asTechnician,
  limit = 37,
): Promise<PieceListed[]> {
  const rows: PieceListed[] = [];
  for (let after: PieceId | undefined; ; ) {
    const page = await search({ ...sought, limit, ...(after ? { after } : {}) });
    rows.push(...page.rows);
    if (!page.next) return rows;
    expect(page.rows.length).toBeLessThanOrEqual(limit);
    after = page.next as PieceId;
  }
}
const idsOf = (rows: readonly PieceListed[]) => rows.map(({ id }) => id);
/** What a plain walk over all pieces finds: the oracle of every narrowing. */
const byWalk = (holds: (piece: PieceListed) => boolean) => idsOf(all.filter(holds));

beforeAll(async () => {
  await generateRegister(database.owner, SETS);
  all = await everyPage({}, asTechnician, 500);
});

describe("a search", () => {
  test("without narrowing gives every piece once, in the order of registration, however it is paged", async () => {
    const ids = idsOf(all);
    expect(ids).toHaveLength(SETS * PIECES_A_SET);
    expect(ids).toEqual([...ids].sort());
    expect(idsOf(await everyPage({}, asTechnician, 7))).toEqual(ids);
  });

  const MEMBER = madeId(6, 3) as MemberId;
  const RACK = madeId(7, 2) as PlaceId;
  const narrowings: readonly [string, Partial<PiecesSought>, (piece: PieceListed) => boolean][] = [
    ["a kind", { kind: "hood" }, ({ kind }) => kind.code === "hood"],
    ["a size", { size: "46 32 R" }, ({ size }) => size === "46 32 R"],
    ["a model, in any letters", { model: { name: "k7" } }, () => true],
    [
      "a row of the model table",
      { model: { id: madeId(3, 2) as ModelId } },
      ({ kind }) => kind.code === "pants-shell",
    ],
    ["a holder", { holder: RACK }, ({ holder }) => holder.id === RACK],
    [
      "a member, held or assigned",
      { member: MEMBER },
      ({ holder, assignment }) => holder.id === MEMBER || assignment?.member.id === MEMBER,
    ],
    ["what is soiled", { state: "soiled" }, ({ soiled }) => soiled],
    ["what is on hold", { state: "on hold" }, ({ isHeld }) => isHeld],
    ["what is retired", { state: "retired" }, ({ retiredAt }) => retiredAt !== undefined],
    [
      "a kind, a size and a state at once",
      { kind: "hood", size: "46 32 R", state: "soiled" },
      (piece) => {
        return piece.kind.code === "hood" && piece.size === "46 32 R" && piece.soiled;
      },
    ],
    ["text that is a size", { text: "46 32 R" }, ({ size }) => size === "46 32 R"],
    ["text that is in a kind's name", { text: "SHELL" }, ({ kind }) => kind.name.includes("shell")],
    ["text that is in a place's name", { text: "rack 2" }, ({ holder }) => holder.name.includes("Rack 2")],
    ["text that is in every serial", { text: "t000" }, ({ serial }) => serial?.includes("T000") === true],
    ["text that is in some serials", { text: "0012" }, ({ serial }) => serial?.includes("0012") === true],
    [
      "text that is a member's number",
      { text: "1004" },
      ({ holder, assignment, serial }) =>
        holder.detail === "1004" || assignment?.member.detail === "1004" || serial?.includes("1004") === true,
    ],
    [
      "text that is in a member's name",
      { text: "ferro" },
      ({ holder, assignment }) => /Ferro/.test(`${holder.name} ${assignment?.member.name}`),
    ],
  ];
  test.each(narrowings)("by %s finds what a walk over all pieces finds", async (_, sought, holds) => {
    const wanted = byWalk(holds);
    expect(wanted.length).toBeGreaterThan(0);
    expect(idsOf(await everyPage(sought))).toEqual(wanted);
  });

  test("by part of a tag number, with blanks and small letters, finds its piece", async () => {
    const { id, number = "" } = all[100] as PieceListed;
    const part = `${number.slice(2, 5)} ${number.slice(5, 9)}`.toLowerCase();
    expect(idsOf(await everyPage({ text: part }))).toEqual(
      byWalk((piece) => piece.number?.includes(number.slice(2, 9)) === true),
    );
    expect(idsOf(await everyPage({ text: number }))).toEqual([id]);
  });

  test("by text takes % for itself, and blanks for nothing", async () => {
    expect(await everyPage({ text: "%" })).toEqual([]);
    expect(await everyPage({ text: "T0%0" })).toEqual([]);
    expect(await everyPage({ text: "   " })).toEqual([]);
  });

  test("for what was not seen since leaves out what was scanned since, though nothing was written of it", async () => {
    const since = Date.parse("2024-07-01T00:00:00Z") as Instant;
    const wanted = byWalk(({ seenAt, retiredAt }) => !retiredAt && (seenAt ?? "") < "2024-07-01");
    expect(wanted.length).toBeGreaterThan(1);
    expect(idsOf(await everyPage({ lastSeenBefore: since }))).toEqual(wanted);
    const first = all.find(({ id }) => id === wanted[0]);
    await scan(db(), first?.number ?? "");
    expect(idsOf(await everyPage({ lastSeenBefore: since }))).toEqual(wanted.slice(1));
  });

  const SIZE = { size: "46 32 R" };
  test("for what is ready to issue agrees with what the bench says of each piece", async () => {
    const ready = idsOf(await everyPage(SIZE, (sought) => findReady(db(), sought, aViewer()), 11));
    const loose = all.filter(
      ({ kind, size }) => size === SIZE.size && (!kind.layer || kind.layer === "shell"),
    );
    const wanted: Uuid[] = [];
    for (const { id } of loose) if ((await viewPiece(db(), id))?.ready.isReady) wanted.push(id);
    expect(wanted.length).toBeGreaterThan(10);
    expect(ready).toEqual(wanted);
  });
});

describe("a search by somebody who sees only own gear", () => {
  const searchAs =
    (viewer: Viewer): Search =>
    (sought) =>
      searchPieces(db(), sought, viewer);

  test("finds a member's own pieces, whatever else is asked for", async () => {
    const member = madeId(6, 5) as MemberId;
    const own = byWalk(({ holder, assignment }) => holder.id === member || assignment?.member.id === member);
    const search = searchAs(aViewer({ role: "member", member }));
    expect(idsOf(await everyPage({}, search))).toEqual(own);
    expect(await everyPage({ member: madeId(6, 6) as MemberId }, search)).toEqual([]);
  });

  test("finds for a company officer what the station's members have", async () => {
    const station = madeId(5, 4) as PlaceId;
    const members = await db().selectFrom("member").select("id").where("station", "=", station).execute();
    const ids = new Set(members.map(({ id }) => id));
    const wanted = byWalk(({ holder, assignment }) => {
      return ids.has(holder.id ?? "") || ids.has(assignment?.member.id ?? "");
    });
    expect(wanted.length).toBeGreaterThan(0);
    expect(idsOf(await everyPage({}, searchAs(aViewer({ role: "company officer", station }))))).toEqual(
      wanted,
    );
  });

  test("finds nothing for an account that is tied to no member and no station", async () => {
    for (const role of ["member", "company officer"] as const) {
      expect(await everyPage({}, searchAs(aViewer({ role })))).toEqual([]);
    }
  });
});
