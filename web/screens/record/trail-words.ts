import type { TrailEntry } from "../../../server/domain/page-views.ts";
import type { Named, Names } from "../../../server/domain/piece-view.ts";
import { midSentence } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { type EntryParts, entryParts } from "../entry-words.ts";

const words = RECORD_WORDS;

/** Says an entry on the trail of a piece: its own, one of its tags', or one of a layer that names this shell. */
export function trailParts(entry: TrailEntry, names: Names): EntryParts {
  return entry.ofLayer ? layerParts(entry, entry.ofLayer, names) : entryParts(entry, names);
}

function layerParts(entry: TrailEntry, ofLayer: Named, names: Names): EntryParts {
  const layer = namePiece(ofLayer);
  const body = entry.entry;
  switch (body.kind) {
    case "LayerInstalled":
      return { verb: words.layer.installed, rest: words.layer.inIt(layer, words.verdicts[body.verdict]) };
    case "LayerFoundFitted":
      return { verb: words.layer.foundFitted, rest: words.layer.inIt(layer, words.verdicts[body.verdict]) };
    case "LayerSeparated":
      return { verb: words.layer.separated, rest: words.layer.takenOut(layer) };
    case "LabelsComparedByEye":
      return { verb: words.layer.byEye, rest: words.layer.with(layer, names[body.by]?.name) };
    default: {
      const { verb, rest = "" } = entryParts(entry, names);
      return { verb, rest: words.layer.of(layer, rest) };
    }
  }
}

/** Names a piece in the middle of a sentence: `coat liner HJ9V 2939 03KX`. */
export function namePiece({ name, detail }: Named): string {
  const number = detail?.replaceAll(" ", "").replace(/(.{4})(?=.)/g, "$1 ");
  return number ? `${midSentence(name)} ${number}` : midSentence(name);
}

/** Says how an entry is known and which one it is: `scanned, entry 31`. */
export function howKnown(entry: TrailEntry): string {
  const { version } = entry;
  if (entry.subjectKind === "tag") {
    const proof = "proof" in entry.entry ? `${entry.entry.proof}, ` : "";
    return `${proof}${words.tagEntryNumber(version, grouped(entry.tagNumber))}`;
  }
  const number = entry.ofLayer
    ? words.layerEntryNumber(version, midSentence(entry.ofLayer.name))
    : words.entryNumber(version);
  return `${entry.entry.evidence}, ${number}`;
}

function grouped(number: string | undefined): string {
  return number?.replace(/(.{4})(?=.)/g, "$1 ") ?? "";
}

/** Names the row of an entry in the page's address: the piece's own by number, others by subject and number. */
export function entryAnchor(entry: TrailEntry): string {
  const isOwn = entry.subjectKind === "piece" && !entry.ofLayer;
  return isOwn ? `entry-${entry.version}` : `entry-${entry.subject}-${entry.version}`;
}
