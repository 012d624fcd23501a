import type { BagAtCard } from "../../../server/domain/custody/bag-views.ts";
import type { MemberBrief, PlaceBrief, ScanAnswer } from "../../../server/domain/scan-answer.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import type { TrayPiece } from "./bench-run.ts";
import type { Mode } from "./mode.ts";
import type { Card } from "./mode-of-card.ts";

const words = EVENT_WORDS;

/** A bag takes what a member held, unseen. */
export interface PackMode {
  readonly kind: "pack a bag";
  readonly bag?: PlaceBrief;
}
/** A bag's contents are scanned out of it; what is on record in it is known. */
export interface OpenMode {
  readonly kind: "open a bag";
  readonly bag: PlaceBrief;
  readonly contents: BagAtCard;
}

/** Who a bag is packed for, as a card or a badge names them. */
export interface Packer {
  readonly id: string;
  readonly name: string;
}

/**
 * Tells what a card means to a bag: an empty one is packed, one with something in it is opened. Undefined where the card
 * is none of a bag, or the bench collects something else: then the bag is a place like others.
 */
export function bagCardMeans(mode: Mode, isTrayEmpty: boolean, card: Card): Mode | undefined {
  if (card.kind !== "place" || card.place.what !== "bag" || !isTrayEmpty) return undefined;
  if (mode.kind === "pack a bag") return { kind: "pack a bag", bag: card.place };
  if (mode.kind !== "look up" && mode.kind !== "open a bag") return undefined;
  return card.bag && card.bag.pieces.length > 0
    ? { kind: "open a bag", bag: card.place, contents: card.bag }
    : { kind: "pack a bag", bag: card.place };
}

/** Gives who the bag in the mode is packed for, where a member's card or badge says it. */
export function packerOf(mode: Mode, answer: ScanAnswer): Packer | undefined {
  if (mode.kind !== "pack a bag" || !mode.bag) return undefined;
  if (answer.kind === "member") return packerFrom(answer.member);
  if (answer.kind !== "badge" || !answer.account.member) return undefined;
  return { id: answer.account.member, name: answer.account.name };
}

function packerFrom(member: MemberBrief): Packer {
  return { id: member.id, name: member.name ?? `Member ${member.number}` };
}

/** Tells whether all that carries a tag and is on record in the bag was scanned: then the opening is written by itself. */
export function isAllFound(mode: Mode, tray: readonly TrayPiece[]): boolean {
  if (mode.kind !== "open a bag") return false;
  const seen = new Set(tray.map(({ piece }) => piece.id as string));
  const { pieces } = mode.contents;
  return pieces.length > 0 && pieces.every(({ id, number }) => number === undefined || seen.has(id));
}

/** Says the second line of the tape in a bag's mode. */
export function bagSays(mode: PackMode | OpenMode): string {
  if (mode.kind === "open a bag") return words.openSays(mode.bag.name);
  return mode.bag ? words.packWho(mode.bag.name) : words.packSays;
}
