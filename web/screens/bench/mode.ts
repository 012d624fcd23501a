import type { MachineAtCard } from "../../../server/domain/cleaning/machine-view.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import type { Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";

import { bagSays, type OpenMode, type PackMode } from "./bag-mode.ts";

/** Who or what a mode moves pieces to or from, as far as a card or a list can name it. */
export type Party =
  | { readonly kind: "place"; readonly place: PlaceBrief }
  | { readonly kind: "member"; readonly member: MemberBrief };

/** A firm or an outside party that gear can be handed to. */
export interface OtherParty {
  readonly kind: "provider" | "outside";
  readonly id: string;
  readonly name: string;
}

/** What the next scan will do. It is always on the tape. */
export type Mode =
  | { readonly kind: "look up" }
  | { readonly kind: "transfer"; readonly to?: PlaceBrief }
  | { readonly kind: "hand over"; readonly to: OtherParty }
  | {
      readonly kind: "turn in";
      readonly soiled: boolean;
      readonly to?: PlaceBrief;
      readonly from?: MemberBrief;
    }
  | { readonly kind: "issue"; readonly to?: MemberBrief }
  | { readonly kind: "install" }
  | { readonly kind: "separate" }
  | { readonly kind: "attach tag"; readonly piece?: PieceView }
  | { readonly kind: "as found"; readonly where?: Party }
  | { readonly kind: "washed"; readonly how?: HowCleaned }
  | LoadMode
  | PackMode
  | OpenMode
  /** First what lies on the bench is laid out, then shells and their layers are scanned in turn. */
  | { readonly kind: "reassemble"; readonly step: "lay out" | "install" }
  | { readonly kind: "wiped" };

/** Pieces are put in a machine, whose card again starts it. */
export interface LoadMode {
  readonly kind: "load";
  readonly machine: MachineAtCard;
  /** Another than the machine's usual programme. */
  readonly programme?: string;
}

/** Tells whether the next scan, or the confirm after it, writes on the record. */
export function writes(mode: Mode): boolean {
  return mode.kind !== "look up" && !(mode.kind === "reassemble" && mode.step === "lay out");
}

const NO_TRAY: ReadonlySet<Mode["kind"]> = new Set([
  ...(["look up", "attach tag", "install", "wiped", "pack a bag", "reassemble"] as const),
]);

/** Modes in which scanned pieces collect on the tray until one confirm makes one act of them. */
export function hasTray(mode: Mode): boolean {
  return !NO_TRAY.has(mode.kind);
}

/** Says what a mode still lacks before its tray can be confirmed. */
export function lacks(mode: Mode): "place" | "member" | "holder" | undefined {
  if (mode.kind === "transfer" && !mode.to) return "place";
  if (mode.kind === "turn in" && !mode.to) return "place";
  if (mode.kind === "issue" && !mode.to) return "member";
  return mode.kind === "as found" && !mode.where ? "holder" : undefined;
}

/** Gives where a mode brings its pieces, as far as one can find them there. */
export function whereOf(mode: Mode): Party | undefined {
  switch (mode.kind) {
    case "transfer":
    case "turn in":
      return mode.to && { kind: "place", place: mode.to };
    case "issue":
      return mode.to && { kind: "member", member: mode.to };
    default:
      return undefined;
  }
}

/** Says the mode in the mode line's large words. */
export function modeVerb(mode: Mode, say: Words): string {
  switch (mode.kind) {
    case "look up":
      return say.lookUp;
    case "transfer":
      return mode.to ? say.transferTo(mode.to.name) : say.transfer;
    case "hand over":
      return say.handOverTo(mode.to.name);
    case "turn in":
      if (mode.from) return say.turnInFrom(memberName(mode.from));
      return mode.soiled ? say.turnInSoiled : say.turnIn;
    case "issue":
      return mode.to ? say.issueTo(memberName(mode.to)) : say.issue;
    case "install":
      return say.install;
    case "separate":
      return say.separate;
    case "attach tag":
      return say.attachTag;
    case "as found":
      return mode.where ? say.asFoundWith(partyName(mode.where)) : say.asFound;
    case "washed":
      return say.recordWash;
    case "load":
      return say.loadIn(mode.machine.name);
    case "wiped":
      return say.placeWiped;
    case "pack a bag":
      return EVENT_WORDS.packABag;
    case "open a bag":
      return EVENT_WORDS.openBag(mode.bag.name);
    case "reassemble":
      return mode.step === "lay out" ? say.reassemble.layOut : say.reassemble.verb;
  }
}

/** Says what the next scan does, in the mode line's second line. */
export function modeSays(mode: Mode, say: Words): string {
  const missing = lacks(mode);
  if (missing) return say.cardFirst[missing];
  switch (mode.kind) {
    case "look up":
      return say.lookUpSecond;
    case "install":
      return say.installSecond;
    case "load":
      return loadSays(mode, say);
    case "wiped":
      return say.placeWipedSecond;
    case "pack a bag":
    case "open a bag":
      return bagSays(mode);
    case "attach tag":
      return mode.piece ? say.attachSecond : say.attachFirst;
    case "separate":
      return say.separateSecond;
    case "as found":
      return say.asFoundSecond;
    case "reassemble":
      return mode.step === "lay out" ? say.reassemble.layOutSecond : say.reassemble.second;
    case "turn in":
      return mode.soiled ? say.turnInSoiledSecond : say.collects;
    default:
      return say.collects;
  }
}

function loadSays({ machine }: LoadMode, say: Words): string {
  const { running, waiting } = machine;
  if (running && running.pieces > 0) return say.loadRuns;
  return waiting ? say.loadWaits(waiting.pieces.length, waiting.from) : say.loadSecond;
}

export function memberName(member: MemberBrief): string {
  return member.name ?? `Member ${member.number}`;
}

export function partyName(party: Party): string {
  return party.kind === "place" ? party.place.name : memberName(party.member);
}
