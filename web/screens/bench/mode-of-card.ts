import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { Mode, Party } from "./mode.ts";

export type Card = Extract<ScanAnswer, { kind: "place" | "member" | "action" }>;

/** Gives the mode that a card sets, or the mode with what it lacked. */
export function modeOfCard(mode: Mode, card: Card): Mode {
  if (card.kind === "place") {
    if (mode.kind === "turn in") return { ...mode, to: card.place };
    if (mode.kind === "as found") return { kind: "as found", where: { kind: "place", place: card.place } };
    return { kind: "transfer", to: card.place };
  }
  if (card.kind === "member") {
    if (mode.kind === "turn in") return { ...mode, from: card.member };
    const where: Party = { kind: "member", member: card.member };
    if (mode.kind === "as found") return { kind: "as found", where };
    return { kind: "issue", to: card.member };
  }
  switch (card.action) {
    case "turn in":
      return { kind: "turn in", soiled: false };
    case "turn in soiled":
      return { kind: "turn in", soiled: true };
    case "look up":
    case "install":
    case "separate":
    case "attach tag":
    case "as found":
    case "washed":
    case "wiped":
      return { kind: card.action };
    case "reassemble":
      return mode.kind === "reassemble" ? mode : { kind: "reassemble", step: "lay out" };
    case "confirm":
    case "clear":
      return mode;
  }
}
