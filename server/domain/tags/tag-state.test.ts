import fc from "fast-check";
import { expect, test } from "vitest";
import { type PieceId, parseUuid } from "../ids.ts";
import { parseTagNumber, type TagNumber } from "./tag-number.ts";
import { decideTag, pieceOfTag, type TagCommand, type TagState } from "./tag-state.ts";

const piece = parseUuid("017f22e2-79b0-7cc3-98c4-dc0c0c07398f") as PieceId;
const other = parseUuid("017f22e2-79b0-7cc3-98c4-dc0c0c073990") as PieceId;
const by = parseTagNumber("X00000000013") as TagNumber;

const reserved: TagState = { status: "reserved" };
const printed: TagState = { status: "printed", prints: 1 };
const attached: TagState = { status: "attached", piece, position: "only" };
const superseded: TagState = { status: "superseded", piece, position: "only", by };
const lost: TagState = { status: "lost", piece, position: "only" };
const destroyed: TagState = { status: "destroyed", piece, position: "only" };
const spoiled: TagState = { status: "void", reason: "smeared" };

const attach: TagCommand = { do: "attach", piece, position: "only", proof: "scanned" };
const refusal = (state: TagState, command: TagCommand) => {
  const decision = decideTag(state, command);
  return "refusal" in decision ? decision.refusal.code : decision.next.status;
};

test("a tag goes live when the printed label is scanned back", () => {
  expect(decideTag(printed, attach)).toEqual({ next: attached });
});

test("typing its number never proves a tag", () => {
  expect(refusal(printed, { ...attach, proof: "typed" })).toBe("tag-not-scanned-back");
  expect(refusal(lost, { do: "find", proof: "typed" })).toBe("tag-not-scanned-back");
});

test("a number that was never printed cannot be attached", () => {
  expect(refusal(reserved, attach)).toBe("tag-not-printed");
});

test("a live tag names one piece and refuses a second", () => {
  expect(decideTag(attached, { ...attach, piece: other })).toEqual({
    refusal: { code: "tag-already-attached", piece },
  });
});

test("a number is printed again before it was attached, and never after", () => {
  expect(decideTag(printed, { do: "print" })).toEqual({ next: { status: "printed", prints: 2 } });
  for (const state of [attached, superseded, lost, destroyed])
    expect(refusal(state, { do: "print" })).toBe("tag-was-attached");
});

test("a spoiled print becomes void and takes no further part", () => {
  expect(decideTag(printed, { do: "void", reason: "smeared" })).toEqual({ next: spoiled });
  for (const command of [{ do: "print" }, attach, { do: "lose" }, { do: "void", reason: "again" }] as const)
    expect(refusal(spoiled, command)).toBe("tag-is-void");
  expect(refusal(attached, { do: "void", reason: "smeared" })).toBe("tag-was-attached");
});

test("a replaced, lost or destroyed tag still opens the piece that it was on", () => {
  for (const state of [attached, superseded, lost, destroyed]) expect(pieceOfTag(state)).toBe(piece);
  for (const state of [reserved, printed, spoiled]) expect(pieceOfTag(state)).toBeUndefined();
});

test("a live or lost tag may be replaced; a tag that was never attached may not", () => {
  expect(decideTag(attached, { do: "supersede", by })).toEqual({ next: superseded });
  expect(decideTag(lost, { do: "supersede", by })).toEqual({ next: superseded });
  expect(refusal(printed, { do: "supersede", by })).toBe("tag-never-attached");
  expect(refusal(superseded, { do: "supersede", by })).toBe("tag-ended");
});

test("a lost tag that is scanned on its piece again is live again", () => {
  expect(decideTag(attached, { do: "lose" })).toEqual({ next: lost });
  expect(decideTag(lost, { do: "find", proof: "scanned" })).toEqual({ next: attached });
  expect(refusal(lost, { do: "lose" })).toBe("tag-ended");
  expect(refusal(destroyed, { do: "find", proof: "scanned" })).toBe("tag-not-lost");
});

test("no run of commands moves a number to another piece or prints it after it was attached", () => {
  const command: fc.Arbitrary<TagCommand> = fc.oneof(
    fc.constant({ do: "print" } as const),
    fc.record({
      do: fc.constant("attach" as const),
      piece: fc.constantFrom(piece, other),
      position: fc.constant("only"),
      proof: fc.constantFrom("scanned" as const, "typed" as const),
    }),
    fc.constant({ do: "supersede", by } as const),
    fc.constant({ do: "lose" } as const),
    fc.record({
      do: fc.constant("find" as const),
      proof: fc.constantFrom("scanned" as const, "typed" as const),
    }),
    fc.constant({ do: "destroy" } as const),
    fc.constant({ do: "void", reason: "smeared" } as const),
  );
  fc.assert(
    fc.property(fc.array(command, { maxLength: 12 }), (commands) => {
      let state: TagState = reserved;
      let opened: PieceId | undefined;
      for (const next of commands) {
        const decision = decideTag(state, next);
        if ("refusal" in decision) continue;
        if (opened !== undefined) {
          expect(pieceOfTag(decision.next)).toBe(opened);
          expect(next.do).not.toBe("print");
        }
        state = decision.next;
        opened = pieceOfTag(state);
      }
    }),
  );
});
