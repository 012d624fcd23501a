import { describe, expect, test } from "vitest";
import type { TrailEntry } from "../../../server/domain/page-views.ts";
import { type CorrectDraft, correctionOf, whatCanBeWrong } from "./correct-draft.ts";

function anEntry(kind: string, facts: object = {}): TrailEntry {
  return { subjectKind: "piece", version: 4, act: "the-act", entry: { kind }, ...facts } as never;
}
const draft = (facts: Partial<CorrectDraft>): CorrectDraft => ({
  ...{ wrong: "entry", at: "2026-07-02T09:15", note: "Wrong card." },
  ...facts,
});

describe("what can be corrected on a trail", () => {
  test("is where it went only for moves and findings, and when or whether for other acts", () => {
    expect(whatCanBeWrong(anEntry("PieceMoved"))).toEqual(["holder", "time", "entry", "act"]);
    expect(whatCanBeWrong(anEntry("PieceCleaned"))).toEqual(["time", "entry", "act"]);
  });

  test("is nothing for what is described anew instead, for tags and layers, and for what was corrected already", () => {
    const rest = [anEntry("PieceDescribed"), anEntry("TagAttached", { subjectKind: "tag" })];
    const other = [anEntry("LayerInstalled", { ofLayer: {} }), anEntry("PieceMoved", { correctedBy: 5 })];
    expect([...rest, ...other].map(whatCanBeWrong)).toEqual([[], [], [], []]);
  });

  test("is a correction itself, by what it put in the place of the first", () => {
    const again = anEntry("EntryCorrected", {
      entry: { kind: "EntryCorrected", instead: { kind: "PieceMoved" } },
    });
    expect(whatCanBeWrong(again)).toContain("holder");
    expect(whatCanBeWrong(anEntry("EntryCorrected"))).toEqual([]);
  });
});

describe("a correction", () => {
  const made = (facts: Partial<CorrectDraft>) =>
    correctionOf("the-piece", anEntry("PieceMoved"), draft(facts), "America/Chicago");

  test("is not made without a reason, and not without what is right", () => {
    expect([made({ note: " " }), made({ wrong: "holder" }), made({ wrong: "time", at: "" })]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  test("writes the time as the department's clocks have it", () => {
    const about = { piece: "the-piece", version: 4, note: "Wrong card." };
    expect(made({ wrong: "time" })?.body).toEqual({ ...about, at: "2026-07-02T14:15:00.000Z" });
    expect(made({})?.body).toEqual({ ...about, void: true });
  });

  test("of the whole act takes back the act", () => {
    expect(made({ wrong: "act" })).toEqual({
      command: "takeBackAct",
      body: { act: "the-act", note: "Wrong card." },
    });
  });
});
