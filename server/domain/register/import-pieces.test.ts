import { expect, test } from "vitest";
import type { PieceId, PlaceId } from "../ids.ts";
import type { Instant } from "../time.ts";
import { type ImportedPiece, type ImportState, importPieces } from "./import-pieces.ts";
import { STANDARD_KINDS } from "./standard-kinds.ts";

const id = (n: number) => `0198a000-0000-7000-8000-${String(n).padStart(12, "0")}` as PieceId;
const RACK = id(900) as unknown as PlaceId;
const FILE = "a".repeat(64);

function aRow(n: number, more: Partial<ImportedPiece> = {}): ImportedPiece {
  return {
    id: id(n),
    kind: "coat-shell",
    label: { maker: "Tarnholt", serial: `T-${n}` },
    reading: "read",
    file: { owner: { kind: "department" } },
    holder: { kind: "place", id: RACK },
    ...more,
  };
}
function aRegister(more: Partial<ImportState> = {}): ImportState {
  const kinds = new Map(STANDARD_KINDS.map((kind) => [kind.code, kind]));
  return { kinds, serials: new Map(), codes: new Map(), at: 1 as Instant, ...more };
}

test("a row with a foreign code is registered and its code bound, both as imported", () => {
  const decided = importPieces(aRegister(), {
    file: FILE,
    pieces: [aRow(1, { foreignCode: "00123" }), aRow(2)],
  });
  const entries = "entries" in decided ? decided.entries : [];
  expect(entries.map(({ subject, entry }) => [subject, entry.kind])).toEqual([
    [id(1), "PieceRegistered"],
    [id(1), "ForeignCodeBound"],
    [id(2), "PieceRegistered"],
  ]);
  expect(entries.every(({ entry }) => "evidence" in entry && entry.evidence === "imported")).toBe(true);
  expect(JSON.stringify(entries[0])).not.toContain("foreignCode");
});

test("a code that another piece has, in the register or in the file, keeps the whole file out", () => {
  const pieces = [
    aRow(1, { foreignCode: "00123" }),
    aRow(2, { foreignCode: "00123" }),
    aRow(3, { foreignCode: "9" }),
  ];
  const decided = importPieces(aRegister({ codes: new Map([["9", id(50)]]) }), { file: FILE, pieces });
  expect(decided).toEqual({
    refusals: [
      { code: "code-bound", text: "00123", by: id(1) },
      { code: "code-bound", text: "9", by: id(50) },
    ],
  });
});

test("serials and codes that are taken are told together", () => {
  const state = aRegister({
    serials: new Map([["tarnholt\u0000coat-shell\u0000t-1", id(50)]]),
    codes: new Map([["9", id(51)]]),
  });
  const decided = importPieces(state, { file: FILE, pieces: [aRow(1, { foreignCode: "9" })] });
  const codes = "refusals" in decided ? decided.refusals.map(({ code }) => code) : [];
  expect(codes).toEqual(["serial-taken", "code-bound"]);
});
