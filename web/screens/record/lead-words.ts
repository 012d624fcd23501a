import type { StayView, TrailView } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayMade, sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { localMoment, sayLongDay } from "./days.ts";
import { namePiece } from "./trail-words.ts";

const words = RECORD_WORDS;

/** Says in a few sentences that anyone can read: what the piece is, since when, where it is, what the record holds. */
export function leadOf(view: TrailView, clock: Clock): string {
  const { piece, stays, names } = view;
  const first = stays[0];
  const last = stays.at(-1);
  const isThen = view.knownAt !== undefined;
  const owner = piece.assignment && names[piece.assignment.member]?.name;
  return [
    labelSentence(view),
    first && words.onRecordSince(longDay(first.from, clock), whereOf(first.holder)),
    last && whereNow(last, isThen, clock),
    piece.fittedIn && words.installedIn(namePiece(piece.fittedIn.shell), isThen),
    owner && piece.assignment && words.belongsToSet(owner, piece.assignment.set, isThen),
    piece.retiredAt && words.retiredOn(longDay(piece.retiredAt, clock)),
    checkedSentence(view, clock),
  ]
    .filter(Boolean)
    .join(" ");
}

/** How many entries there are and that none was changed; where some were, a notice above says it instead. */
function checkedSentence({ checked, knownAt }: TrailView, clock: Clock): string {
  if (checked.changed.length > 0) return "";
  const when = sayWhen(checked.at, clock.now, clock.timeZone);
  return knownAt ? words.entriesThen(checked.entries) : words.entriesChecked(checked.entries, when);
}

function labelSentence({ piece }: TrailView): string {
  const { label } = piece;
  const { madeOn } = label;
  const made = madeOn ? (madeOn.length > 7 ? words.madeOn : words.madeIn)(sayMade(madeOn)) : "";
  const facts = [
    label.modelName && words.labelModel(label.modelName),
    label.linerCode && words.labelLiner(label.linerCode, piece.kind.layer === "shell"),
    label.size && words.labelSize(label.size),
  ].filter(Boolean);
  const maker = label.maker ? words.madeBy(label.maker) : words.makerUnknown;
  const head = `${maker}${made}${facts.length > 0 ? `: ${facts.join(", ")}` : ""}.`;
  return piece.labelReading === "read" ? head : `${head} ${words.labelReading[piece.labelReading]}`;
}

function whereNow(stay: StayView, isThen: boolean, clock: Clock): string {
  const since = sayWhen(stay.from, clock.now, clock.timeZone);
  if (stay.holder.kind === "whereabouts unknown") return words.todayUnknown(since);
  return (isThen ? words.thenWas : words.todayIs)(whereOf(stay.holder), since);
}

/** Says where a piece is as the middle of a sentence: `at Rack C1 in Gear cage`. */
export function whereOf(holder: Named): string {
  switch (holder.kind) {
    case "place":
      return words.where.place(holder.name, holder.detail);
    case "member":
      return words.where.member(holder.name);
    case "provider":
      return words.where.provider(holder.name);
    case "outside":
      return words.where.outside(holder.name);
    case "in transit":
      return words.where["in transit"];
    default:
      return words.where["whereabouts unknown"];
  }
}

function longDay(instant: string, clock: Clock): string {
  return sayLongDay(localMoment(Date.parse(instant), clock.timeZone).day);
}

/** Writes a position of the record with its thousands apart: `1,204`. */
export function sayPosition(position: number): string {
  return String(position).replace(/\B(?=(\d{3})+$)/g, ",");
}
