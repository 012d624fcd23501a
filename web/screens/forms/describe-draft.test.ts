import { describe, expect, it } from "vitest";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import { describeCommand, describeProblems, draftOfPiece, wasBefore } from "./describe-draft.ts";

/** A liner as the server shows it, with what this form reads. */
const aLiner = {
  ...{ id: "p1", version: 7, labelReading: "read", owner: { kind: "department" }, inServiceOn: "2024-01-09" },
  label: { maker: "Tarnholt", size: "46 32 R", linerCode: "LK-2", madeOn: "2023-08", serial: "T-1" },
} as unknown as PieceView;
const before = draftOfPiece(aLiner);

describe("a label that is read anew", () => {
  it("writes only what changed, on the version that the form was filled from", () => {
    expect(describeCommand(aLiner, { ...before, size: "44 32 R" })).toEqual({
      ...{ piece: "p1", label: { size: "44 32 R" }, file: {}, reliedOn: { version: 7 } },
    });
  });

  it("writes nothing when nothing changed, and a note alone is no change", () => {
    expect(describeCommand(aLiner, { ...before, note: "looked again" })).toBeUndefined();
    expect(describeCommand(aLiner, { ...before, madeOn: "08/2023" })).toBeUndefined();
  });

  it("makes what was emptied unknown after all, and says so under the field", () => {
    const emptied = { ...before, linerCode: " ", inServiceOn: "" };
    expect(describeCommand(aLiner, emptied)).toMatchObject({
      ...{ label: { linerCode: null }, file: { inServiceOn: null } },
    });
    expect(wasBefore(aLiner, "linerCode", " ")).toMatch(/Was LK-2\. It becomes unknown/);
    expect(wasBefore(aLiner, "size", "46 32 R")).toBeUndefined();
  });

  it("shows funding, order and price as they are on file, and writes those that change or are emptied", () => {
    expect(describeCommand(aLiner, { ...before, price: "80", funding: "Grant 9" })?.file).toEqual({
      ...{ funding: "Grant 9", priceCents: 8_000 },
    });
    const bought = { ...aLiner, funding: "Grant 9", purchaseOrder: "PO-1", priceCents: 124_950 };
    const draft = draftOfPiece(bought);
    expect([draft.funding, draft.purchaseOrder, draft.price]).toEqual(["Grant 9", "PO-1", "1,249.50"]);
    expect(describeCommand(bought, draft)).toBeUndefined();
    expect(describeCommand(bought, { ...draft, purchaseOrder: "", price: " " })?.file).toEqual({
      ...{ purchaseOrder: null, priceCents: null },
    });
  });

  it("becomes read when somebody reads it, and not legible without a word of it", () => {
    const unread = { ...aLiner, labelReading: "not yet read", label: {} } as PieceView;
    const draft = draftOfPiece(unread);
    expect(Object.keys(describeProblems(draft, "2026-11-24"))).toEqual(["reading"]);
    expect(describeCommand(unread, { ...draft, maker: "Tarnholt" })).toMatchObject({
      ...{ label: { maker: "Tarnholt" }, reading: "read" },
    });
    const worn = { ...draft, reading: "not legible" as const };
    expect(describeProblems(worn, "2026-11-24")).toEqual({});
    expect(describeCommand(unread, worn)).toMatchObject({ label: {}, reading: "not legible" });
  });
});
