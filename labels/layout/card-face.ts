import type { ActionCard } from "../../server/domain/register/policy.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import { tidyText } from "./fit-text.ts";

/** What a card is for. Member cards and badges carry their number and no name. */
export type Card =
  | { readonly card: "action"; readonly action: ActionCard; readonly number: TagNumber }
  | { readonly card: "place"; readonly place: string; readonly number: TagNumber }
  | { readonly card: "member"; readonly number: TagNumber }
  | { readonly card: "badge"; readonly number: TagNumber };

/** What stands on a card: a heading, three short lines that say what happens, and whether it leads to writing. */
export interface CardFace {
  readonly number: TagNumber;
  readonly heading: string;
  readonly lines: readonly [string, string, string];
  /** A filled band with two rows of stitches writes; an open band with one row changes nothing. */
  readonly writes: boolean;
}

type Words = Omit<CardFace, "number">;

const ON_TRAY = "They collect on the tray.";
/** The words are those of the tape, so that the card in the hand and the screen say the same. */
const ACTIONS: Readonly<Record<ActionCard, Words>> = {
  "look up": {
    heading: "Look up",
    lines: ["Scan this card, then a piece.", "The screen shows the piece.", "Nothing changes."],
    writes: false,
  },
  "turn in soiled": {
    heading: "Turn in, soiled",
    lines: ["Scan this card, then pieces.", "They await wash after that.", "Scan Confirm to take them in."],
    writes: true,
  },
  "turn in": {
    heading: "Turn in",
    lines: ["Scan this card, then pieces.", ON_TRAY, "Scan Confirm to take them in."],
    writes: true,
  },
  install: {
    heading: "Install liner or DRD",
    lines: ["Scan a shell, then its liner", "or DRD. Labels that match", "are written at once."],
    writes: true,
  },
  separate: {
    heading: "Separate",
    lines: ["Scan this card, then pieces", "that came apart.", "Scan Confirm to write it."],
    writes: true,
  },
  "attach tag": {
    heading: "Attach tag",
    lines: ["Scan or choose a piece.", "Fix the tag, then scan it.", "Only a scan proves a tag."],
    writes: true,
  },
  "as found": {
    heading: "As found",
    lines: ["For gear taken or fitted", "while nobody wrote it down.", "Scan Confirm to write it."],
    writes: true,
  },
  washed: {
    heading: "Record a wash",
    lines: ["Scan this card, then pieces,", "shells apart from liners.", "Scan Confirm to write it."],
    writes: true,
  },
  wiped: {
    heading: "Place wiped",
    lines: ["Scan this card, then the card", "of the place that was wiped.", "It is written at once."],
    writes: true,
  },
  reassemble: {
    heading: "Lay out to reassemble",
    lines: ["Scan it, then what lies there.", "Scan it again to install", "shell by shell."],
    writes: false,
  },
  confirm: {
    heading: "Confirm",
    lines: ["Writes what is on the tray", "as one act, all or none.", "Nothing else to press."],
    writes: true,
  },
  clear: {
    heading: "Clear",
    lines: ["Takes all off the tray.", "What is written stays.", "Nothing is written."],
    writes: false,
  },
};

/** Says what stands on a card. A place's name comes from the register; no card carries a person's name. */
export function faceOfCard(card: Card): CardFace {
  switch (card.card) {
    case "action":
      return { number: card.number, ...ACTIONS[card.action] };
    case "place":
      return {
        number: card.number,
        heading: tidyText(`Transfer to ${card.place}`),
        lines: ["Scan this card, then pieces.", ON_TRAY, "Scan Confirm to write it."],
        writes: true,
      };
    case "member":
      return {
        number: card.number,
        heading: "Issue to a member",
        lines: ["Scan this card, then pieces.", ON_TRAY, "Scan Confirm to issue them."],
        writes: true,
      };
    case "badge":
      return {
        number: card.number,
        heading: "Badge",
        lines: ["Says who is at the bench.", "The PIN goes with it.", "Alone it only turns gear in."],
        writes: false,
      };
  }
}
