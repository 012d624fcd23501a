import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { MadeOn } from "../../server/domain/time.ts";
import { tidyText } from "./fit-text.ts";
import type { LayerEdge } from "./layer-edge.ts";

/** What a tag says. A spare tag has the number alone. No person, no place, no serial: a tag carries no personal data. */
export interface TagContent {
  readonly number: TagNumber;
  readonly kindLine?: string;
  readonly sizeLine?: string;
  readonly edge: LayerEdge;
}

/** What a tag may say of its piece; unknown stays absent. `layer` is what the kind is in its garment. */
export interface PieceOnTag {
  readonly kind: { readonly name: string; readonly family?: string; readonly layer?: string };
  readonly modelName?: string;
  readonly linerCode?: string;
  readonly size?: string;
  readonly madeOn?: MadeOn;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** Makes the content of a spare tag: the number, and nothing that is not known yet. */
export function spareTagContent(number: TagNumber): TagContent {
  return { number, edge: "none" };
}

/** How much a tag says: all, all but the model's name where that is too long, or the number and the edge. */
export type TagWords = "all" | "without the model" | "number alone";

/**
 * Makes a tag's content from its piece. First line: kind, model and, on a liner, the liner code; second line: size
 * and month of manufacture. What is unknown is left out. The rule family is left out too, since the tag tells which
 * layer is in the hand and the screen tells the rest. Nothing is shortened here: `words` is the printer's choice
 * when a line does not fit.
 */
export function tagContentOfPiece(number: TagNumber, piece: PieceOnTag, words: TagWords = "all"): TagContent {
  const edge = edgeOfLayer(piece.kind.layer);
  if (words === "number alone") return { number, edge };
  const model = words === "all" ? piece.modelName : undefined;
  const code = edge === "lozenge" ? piece.linerCode : undefined;
  const kindLine = joined([kindWord(piece.kind.name, piece.kind.family), model, code]);
  const sizeLine = joined([piece.size, piece.madeOn && monthWord(piece.madeOn)]);
  return { number, edge, ...(kindLine ? { kindLine } : {}), ...(sizeLine ? { sizeLine } : {}) };
}

/** Chooses the edge of a layer: shell, DRD, or any lining layer. A piece that is no layer has none. */
export function edgeOfLayer(layer: string | undefined): LayerEdge {
  switch (layer) {
    case undefined:
      return "none";
    case "shell":
      return "grid";
    case "drd":
      return "slant";
    default:
      return "lozenge";
  }
}

/** Writes the month of a manufacture date, `Mar 2022`; the day is left to the record. */
export function monthWord(madeOn: MadeOn): string {
  return `${MONTHS[Number(madeOn.slice(5, 7)) - 1]} ${madeOn.slice(0, 4)}`;
}

function kindWord(name: string, family: string | undefined): string {
  const rest =
    family && name.toLowerCase().startsWith(`${family.toLowerCase()} `)
      ? name.slice(family.length + 1)
      : name;
  return rest.charAt(0).toUpperCase() + rest.slice(1);
}

function joined(parts: readonly (string | undefined)[]): string {
  return tidyText(parts.filter((part) => part !== undefined).join(" "));
}
