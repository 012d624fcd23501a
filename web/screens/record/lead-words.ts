import type { Named } from "../../../server/domain/piece-view.ts";
import type { Words } from "../../look/words.ts";
import { midSentence, RECORD_WORDS } from "../../look/words-record.ts";
import { pieceName, sayMade, sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { localMoment, sayLongDay } from "./days.ts";
import type { StayView, TrailView } from "./views.ts";

const words = RECORD_WORDS;

/** Says in a few sentences that anyone can read: what the piece is, since when, where it is, what the record holds. */
export function leadOf(view: TrailView, clock: Clock, say: Words): string {
  const { piece, stays } = view;
  const first = stays[0];
  const last = stays.at(-1);
  const isThen = view.knownAt !== undefined;
  const retired = piece.retiredAt && words.retiredOn(longDay(piece.retiredAt, clock));
  const belongs = piece.assignment && words.belongsToSet(piece.assignment.member.name, piece.assignment.set);
  const fitted = piece.fittedIn && words.installedIn(midSentence(pieceName(piece.fittedIn.piece, say)));
  return [
    labelSentence(view),
    first && words.onRecordSince(longDay(first.from, clock), whereOf(first.holder)),
    last && whereNow(last, isThen, clock),
    ...(isThen ? [] : [fitted, belongs, retired]),
    words.entriesUpTo(view.entries.length, sayPosition(view.knownAt?.position ?? view.position)),
  ]
    .filter(Boolean)
    .join(" ");
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
