import { describe, expect, test } from "vitest";
import {
  aBook,
  aPieceAfter,
  aRule,
  KETTLE_YARD,
  MILL_STREET,
  metAt,
} from "../../../test/kit/builders/contamination.ts";
import { aCleaning, minute } from "../../../test/kit/builders/piece-entries.ts";
import type { HowCleaned } from "../pieces/piece-entries.ts";
import { cleaned } from "./clean-piece.ts";
import { unruled } from "./contaminant-rule.ts";
import { mayShareLoad, mustGoToSpecialist, standingContamination } from "./standing-contamination.ts";

const fire = aRule("fire-products", "yes", ["advanced cleaning", "specialised cleaning"]);
const asbestos = aRule("asbestos", "no", ["specialised cleaning"]);
const paint = unruled("paint", "Paint");

const kettle = (...kinds: string[]) => ({ id: KETTLE_YARD, name: "the Kettle Yard fire", kinds });
const mill = (...kinds: string[]) => ({ id: MILL_STREET, name: "the Mill Street fire", kinds });
const bookOf = (...events: ReturnType<typeof kettle>[]) => aBook(events, [fire, asbestos, paint]);

const washed = (at: number, how: HowCleaned = "advanced cleaning") => ({ ...aCleaning(at), how });
const openCodes = (state: ReturnType<typeof aPieceAfter>, book: ReturnType<typeof bookOf>) =>
  standingContamination(state, book).map(({ open }) => open.map(({ code }) => code));

describe("what a piece is still asked for", () => {
  const book = bookOf(kettle("fire-products", "asbestos"));

  test("is every kind of its event, until a cleaning that the policy accepts for that kind", () => {
    expect(openCodes(aPieceAfter(1, ...metAt(KETTLE_YARD)), book)).toEqual([["fire-products", "asbestos"]]);
    expect(openCodes(aPieceAfter(1, ...metAt(KETTLE_YARD), washed(70)), book)).toEqual([["asbestos"]]);
  });

  test("is not lessened by a cleaning before the event was over", () => {
    expect(
      openCodes(aPieceAfter(1, washed(30), ...metAt(KETTLE_YARD)), bookOf(kettle("fire-products"))),
    ).toEqual([["fire-products"]]);
  });

  test("is lessened by one at the moment at which it was over", () => {
    expect(
      openCodes(aPieceAfter(1, washed(40), ...metAt(KETTLE_YARD)), bookOf(kettle("fire-products"))),
    ).toEqual([[]]);
  });

  test("is not lessened by a cleaning that was only told, presumed or imported (design, rule 5)", () => {
    for (const evidence of ["told by provider", "presumed", "imported"] as const) {
      const state = aPieceAfter(1, ...metAt(KETTLE_YARD), { ...washed(70), evidence });
      expect(openCodes(state, book)).toEqual([["fire-products", "asbestos"]]);
    }
  });

  test("stays open for a kind that nobody set a rule for", () => {
    const state = aPieceAfter(1, ...metAt(KETTLE_YARD), washed(70, "specialised cleaning"));
    expect(openCodes(state, bookOf(kettle("paint")))).toEqual([["paint"]]);
  });
});

describe("a cleaning", () => {
  const entriesOf = (how: HowCleaned, ...kinds: string[]) =>
    cleaned(aPieceAfter(1, ...metAt(KETTLE_YARD)), washed(90, how), bookOf(kettle(...kinds))).map(
      ({ entry }) => entry,
    );

  test("that is accepted for all kinds ends the hold by itself", () => {
    expect(entriesOf("specialised cleaning", "fire-products", "asbestos")).toEqual([
      washed(90, "specialised cleaning"),
      { kind: "HoldLifted", at: minute(90), evidence: "scanned", hold: 3, because: "cleaned" },
    ]);
  });

  test("that is not accepted leaves the hold and says which kinds it leaves open", () => {
    expect(entriesOf("advanced cleaning", "fire-products", "asbestos")).toEqual([
      { ...washed(90), leavesOpen: ["asbestos"] },
    ]);
  });

  test("may be the second of two that end it together", () => {
    const book = bookOf(kettle("fire-products", "asbestos"));
    const once = aPieceAfter(1, ...metAt(KETTLE_YARD), washed(70, "specialised cleaning"));
    // The hold still stands since the rule came later than that cleaning; the next cleaning settles it.
    expect(cleaned(once, washed(90), book).map(({ entry }) => entry.kind)).toEqual([
      "PieceCleaned",
      "HoldLifted",
    ]);
  });

  test("of a piece without contamination says nothing of any", () => {
    expect(cleaned(aPieceAfter(1), washed(90), bookOf()).map(({ entry }) => entry)).toEqual([washed(90)]);
  });
});

describe("a load that two pieces would share", () => {
  const plain = aPieceAfter(2);
  const shares = (kinds: string[], other = plain, ...more: ReturnType<typeof kettle>[]) => {
    const { may, because } = mayShareLoad(
      aPieceAfter(1, ...metAt(KETTLE_YARD)),
      other,
      bookOf(kettle(...kinds), ...more),
    );
    return [may, because.map(({ rule }) => rule.code)];
  };

  test("is let pass for a kind that the department lets share", () => {
    expect(shares(["fire-products"])).toEqual(["yes", []]);
  });

  test("is refused for one that it does not, with the kinds that speak against it", () => {
    expect(shares(["fire-products", "asbestos"])).toEqual(["no", ["asbestos"]]);
  });

  test("is not decided for one that nobody set", () => {
    expect(shares(["paint"])).toEqual(["not set", ["paint"]]);
  });

  test("is let pass for two pieces of one event, and refused for two of different ones", () => {
    expect(shares(["asbestos"], aPieceAfter(2, ...metAt(KETTLE_YARD)))).toEqual(["yes", []]);
    expect(shares(["asbestos"], aPieceAfter(2, ...metAt(MILL_STREET)), mill("asbestos"))).toEqual([
      "no",
      ["asbestos", "asbestos"],
    ]);
  });

  test("answers alike whichever piece is asked first", () => {
    const one = aPieceAfter(1, ...metAt(KETTLE_YARD));
    const book = bookOf(kettle("asbestos"));
    expect(mayShareLoad(plain, one, book)).toEqual(mayShareLoad(one, plain, book));
  });
});

test("a kind that asks for a specialist, or that nobody set, is told; one that does not is not", () => {
  const specialist = {
    ...asbestos,
    asks: { ...asbestos.asks, specialist: { ...fire.asks.specialist, says: "yes" as const } },
  };
  const book = aBook([kettle("fire-products", "asbestos", "paint")], [fire, specialist, paint]);
  const asked = mustGoToSpecialist(aPieceAfter(1, ...metAt(KETTLE_YARD)), book);
  expect(asked.map(({ rule }) => rule.code)).toEqual(["asbestos", "paint"]);
});
