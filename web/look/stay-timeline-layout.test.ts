import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layoutTimeline, type TimelineFrame, type TimelineInput } from "./stay-timeline-layout.ts";

const WIDE: TimelineFrame = { width: 1216, names: 164, after: 142, letter: 9.3 };
const NARROW: TimelineFrame = { width: 358, names: 0, after: 16, letter: 8.4 };

const LANES = [
  { key: "member", name: "With a member" },
  { key: "cage", name: "In the cage" },
  { key: "gap", name: "Not recorded", unrecorded: true },
];

function input(stays: TimelineInput["stays"], now = 100): TimelineInput {
  return { lanes: LANES, stays, ticks: [{ at: 0, label: "Mar 2025" }], start: 0, now };
}

describe("layoutTimeline", () => {
  it("puts the first moment and now at the ends of the lanes", () => {
    const { stays, left, right } = layoutTimeline(input([{ key: "a", lane: "cage", from: 0 }]), WIDE);
    expect([left, right]).toEqual([164, 1074]);
    expect([stays[0]?.x0, stays[0]?.x1]).toEqual([176, 1062]);
  });

  it("draws a stay of a moment 4 px long", () => {
    const { stays } = layoutTimeline(
      input([
        { key: "a", lane: "cage", from: 0, to: 50 },
        { key: "b", lane: "member", from: 50, to: 50 },
        { key: "c", lane: "cage", from: 50 },
      ]),
      WIDE,
    );
    expect((stays[1]?.x1 ?? 0) - (stays[1]?.x0 ?? 0)).toBe(4);
  });

  it("joins stays of two lanes by a move, and stays of one lane by none", () => {
    const { moves } = layoutTimeline(
      input([
        { key: "a", lane: "cage", from: 0, to: 30 },
        { key: "b", lane: "cage", from: 30, to: 60 },
        { key: "c", lane: "member", from: 60 },
      ]),
      WIDE,
    );
    expect(moves.map((move) => move.key)).toEqual(["c"]);
  });

  it("writes the length of a gap that fills the picture under its middle, inside the lanes", () => {
    const { gaps, left, right } = layoutTimeline(
      input([
        { key: "a", lane: "cage", from: 0, to: 1 },
        { key: "gap", lane: "gap", from: 1, to: 97, label: "505 days" },
        { key: "b", lane: "member", from: 97 },
      ]),
      WIDE,
    );
    const label = gaps[0]?.label;
    expect(label?.anchor).toBe("start");
    expect(label?.x).toBeGreaterThan(left);
    expect((label?.x ?? right) + "505 days".length * WIDE.letter).toBeLessThan(right);
  });

  it("hangs a gap from the stay before it to the stay after it, and draws no stay or move for it", () => {
    const layout = layoutTimeline(
      input([
        { key: "a", lane: "member", from: 0, to: 40 },
        { key: "gap", lane: "gap", from: 40, to: 58, label: "18 days" },
        { key: "b", lane: "cage", from: 58 },
      ]),
      WIDE,
    );
    expect(layout.stays.map((stay) => stay.key)).toEqual(["a", "b"]);
    expect(layout.moves).toEqual([]);
    const [before, after] = [layout.stays[0], layout.stays[1]];
    const [gap] = layout.gaps;
    expect(gap?.path.startsWith(`M${before?.x1} ${before?.y}C`)).toBe(true);
    expect(gap?.path.endsWith(`${after?.x0} ${after?.y}`)).toBe(true);
    expect(gap?.label.lines).toEqual(["18 days"]);
  });

  it("ends where the piece is now, and nowhere when that is not recorded", () => {
    const known = layoutTimeline(input([{ key: "a", lane: "cage", from: 0 }]), WIDE);
    expect(known.end?.x).toBe(1062);
    const unknown = layoutTimeline(
      input([
        { key: "a", lane: "cage", from: 0, to: 50 },
        { key: "gap", lane: "gap", from: 50 },
      ]),
      WIDE,
    );
    expect(unknown.end).toBeUndefined();
  });

  it("parts a label in two lines beside its stay when it would leave the lane", () => {
    const { stays } = layoutTimeline(
      input([
        { key: "a", lane: "member", from: 85, to: 87, label: "Saltmarsh Textile Care" },
        { key: "b", lane: "cage", from: 87 },
      ]),
      { ...WIDE, letter: 7 },
    );
    expect(stays[0]?.label?.lines).toEqual(["Saltmarsh", "Textile Care"]);
  });

  it("never lets two labels of a lane meet", () => {
    const stay = fc.record({
      from: fc.integer({ min: 0, max: 99 }),
      label: fc.constantFrom("Mirela Ferro", "Corwin Bask"),
    });
    fc.assert(
      fc.property(
        fc.array(stay, { minLength: 2, maxLength: 20 }),
        fc.constantFrom(WIDE, NARROW),
        (drawn, frame) => {
          const sorted = [...drawn].sort((a, b) => a.from - b.from);
          const layout = layoutTimeline(
            input(
              sorted.map((one, at) => ({
                key: String(at),
                lane: "member",
                ...one,
                to: sorted[at + 1]?.from,
              })),
            ),
            frame,
          );
          let until = Number.NEGATIVE_INFINITY;
          for (const { label } of layout.stays) {
            if (!label) continue;
            const width = Math.max(...label.lines.map((line) => line.length)) * frame.letter;
            const start = label.anchor === "start" ? label.x : label.x - width;
            expect(start).toBeGreaterThanOrEqual(until);
            until = start + width;
          }
        },
      ),
    );
  });
});
