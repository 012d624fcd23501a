import { describe, expect, it } from "vitest";
import {
  EMPTY_DRAFT,
  NOBODY_KNOWS,
  pieceOfDraft,
  type RegisterDraft,
  registerProblems,
  sameAgain,
  WITH_MEMBER,
} from "./register-draft.ts";

const today = "2026-11-24";
const aLiner: RegisterDraft = {
  ...EMPTY_DRAFT,
  ...{ kind: "coat-liner", maker: "Tarnholt", size: "46 32 R", serial: "T-90331", where: "rack" },
};
const problemsOf = (changes: Partial<RegisterDraft>) => registerProblems({ ...aLiner, ...changes }, today);

describe("a piece on the register form", () => {
  it("needs a kind and where it is, and nothing else when its label is not yet read", () => {
    expect(Object.keys(registerProblems(EMPTY_DRAFT, today)).sort()).toEqual(["kind", "reading", "where"]);
    const unread = { ...EMPTY_DRAFT, kind: "hood", reading: "not yet read", where: NOBODY_KNOWS } as const;
    expect(registerProblems(unread, today)).toEqual({});
    expect(pieceOfDraft(unread, "id")).toEqual({
      ...{ id: "id", kind: "hood", label: {}, reading: "not yet read" },
      ...{ file: { owner: { kind: "department" } }, holder: { kind: "whereabouts unknown" } },
    });
  });

  it("keeps serial and lot apart and leaves out what is empty", () => {
    const piece = pieceOfDraft({ ...aLiner, lot: " L-7 ", madeOn: "05/2024", linerCode: "  " }, "id");
    expect(piece.label).toEqual({
      ...{ maker: "Tarnholt", size: "46 32 R", serial: "T-90331", lot: "L-7", madeOn: "2024-05" },
    });
    expect(piece.holder).toEqual({ kind: "place", id: "rack" });
  });

  it("has every problem at once, each under its own field", () => {
    const problems = problemsOf({
      ...{ madeOn: "5/6/2024", price: "dear", inServiceOn: "2026-02-30", ownerKind: "member" },
      ...{ where: WITH_MEMBER, size: "x".repeat(201) },
    });
    expect(Object.keys(problems).sort()).toEqual(
      ["inServiceOn", "madeOn", "ownerId", "price", "size", "whereMember"].sort(),
    );
  });

  it("was not made in a month that has not come", () => {
    expect(problemsOf({ madeOn: "2026-11" })).toEqual({});
    expect(Object.keys(problemsOf({ madeOn: "2026-12" }))).toEqual(["madeOn"]);
  });

  it("with a serial is one piece: a serial never names several", () => {
    expect(Object.keys(problemsOf({ count: "3" }))).toEqual(["count"]);
    expect(problemsOf({ count: "3", serial: "" })).toEqual({});
    expect(Object.keys(problemsOf({ count: "0", serial: "" }))).toEqual(["count"]);
  });

  it("files who owns it, what it cost and since when it is in service", () => {
    const file = {
      ...({ ownerKind: "provider", ownerId: "salt", funding: "Grant 9", purchaseOrder: "PO-1" } as const),
      ...{ price: "1,249.50", inServiceOn: "2026-03-01" },
    };
    expect(pieceOfDraft({ ...aLiner, ...file }, "id").file).toEqual({
      owner: { kind: "provider", id: "salt" },
      ...{ funding: "Grant 9", purchaseOrder: "PO-1", priceCents: 124_950, inServiceOn: "2026-03-01" },
    });
  });
});

describe("same again", () => {
  it("keeps every field but the serial", () => {
    expect(sameAgain({ ...aLiner, lot: "L-7", note: "new gear" })).toEqual({
      ...aLiner,
      ...{ lot: "L-7", note: "new gear", serial: "" },
    });
  });
});
