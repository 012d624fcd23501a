import { expect, test } from "vitest";
import type { PieceId, Uuid } from "../../../server/domain/ids.ts";
import type { PieceListed, SetShown } from "../../../server/domain/page-views.ts";
import { words } from "../../look/words.ts";
import { setWords } from "./set-words.ts";

const MEMBER = "m" as Uuid;

function aPiece(id: string, name: string, holder = "m"): PieceListed {
  return {
    ...{ id: id as PieceId, kind: { code: name, name, family: "structural" }, labelReading: "read" },
    holder: { kind: holder === "m" ? "member" : "place", id: holder as Uuid, name: holder },
    ...{ heldSince: "2026-01-01T00:00:00Z", soiled: false, isHeld: false },
  };
}
function aSet(changes: Partial<SetShown>): SetShown {
  const pieces = [aPiece("shell", "Coat outer shell"), aPiece("hood", "Hood")];
  return { ...{ set: "front-line", pieces, garments: [], outfitLacks: [] }, ...changes };
}
const said = (changes: Partial<SetShown>) => setWords(aSet(changes), MEMBER, {}, words("US"));
const AWAY = { code: "not-at-a-place", holder: { kind: "member", id: MEMBER } };

test("a complete set with its member has nothing said against it", () => {
  const garments = [
    { piece: "shell", layers: ["liner"], missing: [], ready: { isReady: false, reasons: [AWAY], notes: [] } },
  ] as unknown as SetShown["garments"];
  expect(said({ garments })).toEqual(["2 pieces.", "Each garment is complete."]);
});

test("what a garment lacks, what stops it and what the outfit lacks each have their line", () => {
  const hold = { code: "on-hold", piece: "shell", hold: { kind: "contamination" } };
  const missing = { code: "layer-missing", shell: "shell", need: { layerKind: "drd" } };
  const garments = [
    {
      ...{ piece: "shell", layers: [], missing: ["coat-liner", "drd"] },
      ready: { isReady: false, reasons: [AWAY, hold, missing], notes: [] },
    },
  ] as unknown as SetShown["garments"];
  expect(said({ garments, outfitLacks: ["glove-pair"] })).toEqual([
    "2 pieces.",
    "Coat outer shell lacks coat liner and DRD.",
    "Coat outer shell is not ready to issue: It is on hold: contamination.",
    "No glove pair in it.",
  ]);
});

test("a piece of the set that somebody else has is counted apart", () => {
  const pieces = [aPiece("shell", "Coat outer shell"), aPiece("hood", "Hood", "washer")];
  expect(said({ pieces })[0]).toBe("2 pieces. 1 piece is not with the member.");
});
