import { expect, test } from "vitest";
import type { AccountId, PieceId, Uuid } from "../../../server/domain/ids.ts";
import type { TrailEntry } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import type { PieceEntry } from "../../../server/domain/pieces/piece-entries.ts";
import type { TagNumber } from "../../../server/domain/tags/tag-number.ts";
import type { Instant } from "../../../server/domain/time.ts";
import { entryAnchor, howKnown, namePiece, trailParts } from "./trail-words.ts";

const AT = { at: 0 as Instant, evidence: "scanned" } as const;
const LINER: Named = { kind: "piece", id: "l" as Uuid, name: "Coat liner", detail: "HJ9V293903KX" };

function ofLiner(entry: PieceEntry, version = 7): TrailEntry {
  return {
    ...{ subjectKind: "piece", subject: "l" as PieceId, version, entry, ofLayer: LINER },
    ...{
      act: "a" as Uuid,
      position: 9,
      command: "",
      device: "",
      by: { kind: "account", name: "Inez Calloway" },
    },
    ...{ at: "2026-01-01T00:00:00Z", recordedAt: "2026-01-01T00:00:00Z" },
  };
}
const said = (entry: PieceEntry) => {
  const { verb, rest } = trailParts(ofLiner(entry), {
    i: { kind: "account", name: "Petra Oxholm" },
  });
  return `${verb} ${rest}`;
};

test("on a shell's trail a layer's entry names the layer, and what its labels said", () => {
  const layer = { shell: "s" as PieceId, layerKind: "coat-liner" };
  expect(said({ kind: "LayerInstalled", ...AT, ...layer, verdict: "match" })).toBe(
    "Installed coat liner HJ9V 2939 03KX in it: labels match",
  );
  expect(said({ kind: "LayerFoundFitted", ...AT, ...layer, verdict: "differs" })).toBe(
    "Found fitted coat liner HJ9V 2939 03KX in it: differs",
  );
  expect(said({ kind: "LayerSeparated", ...AT, shell: "s" as PieceId })).toBe(
    "Separated coat liner HJ9V 2939 03KX taken out",
  );
  expect(said({ kind: "LabelsComparedByEye", ...AT, shell: "s" as PieceId, by: "i" as AccountId })).toBe(
    "Labels compared by eye with coat liner HJ9V 2939 03KX, by Petra Oxholm",
  );
});

test("a correction of a layer's entry says whose entry it corrects", () => {
  expect(said({ kind: "EntryCorrected", ...AT, corrects: 4 })).toMatch(
    /^Corrected coat liner HJ9V 2939 03KX: entry 4/,
  );
});

test("each row says how it is known and which entry of which subject it is, and has an address of its own", () => {
  const own = { ...ofLiner({ kind: "LayerSeparated", ...AT, shell: "s" as PieceId }) };
  const { ofLayer: _, ...piece } = own;
  expect(howKnown(piece)).toBe("scanned, entry 7");
  expect(howKnown(own)).toBe("scanned, entry 7 of the coat liner");
  const tag = {
    ...piece,
    subjectKind: "tag",
    entry: { kind: "TagLost", at: AT.at },
  } as unknown as TrailEntry;
  expect(howKnown({ ...tag, tagNumber: "HJ9V293903KX" as TagNumber })).toBe("entry 7 of tag HJ9V 2939 03KX");
  expect(
    new Set([piece, own, { ...tag, subject: "t" }].map((row) => entryAnchor(row as TrailEntry))).size,
  ).toBe(3);
});

test("an abbreviation keeps its capitals within a sentence", () => {
  expect(namePiece({ kind: "piece", name: "DRD", detail: "J06N 3H4K 3VX9" })).toBe("DRD J06N 3H4K 3VX9");
  expect(namePiece({ kind: "piece", name: "Coat outer shell" })).toBe("coat outer shell");
});
