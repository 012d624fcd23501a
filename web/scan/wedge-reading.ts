import { readScannedText } from "../../server/domain/tags/scanned-text.ts";
import { parseTagNumber } from "../../server/domain/tags/tag-number.ts";

/** One character of a burst: the key, and what each reading makes of it. */
export interface Stroke {
  readonly code: string;
  readonly key: string;
  readonly shiftKey: boolean;
  /** By physical key on a US keyboard; U+FFFD when that key makes none there. */
  readonly physical: string;
  /** What the host made of it; empty for a dead key. */
  readonly produced: string;
  /** Kept from the page, so that it has to be given back if the burst was typed by a person. */
  readonly isHeld: boolean;
}

/** Whether the scanner's layout is the US one or the host's. */
export type WedgeLayout = "us" | "host";
export interface WedgeReading {
  readonly text: string;
  /** Known only when the two readings differ and the check symbols decided between them. */
  readonly layout?: WedgeLayout;
}
const AIM = /^\][A-Za-z][0-9A-Za-z]/;
/** The digit row of a French AZERTY keyboard without Shift: remote desktops pass these and no physical key. */
const AZERTY_DIGITS = "à&é\"'(-è_ç";
const CODE_39_SEPARATORS = " -./:+$%";

/** Reads a burst by physical key and by produced character and takes the one that makes sense. */
export function readStrokes(strokes: readonly Stroke[], known?: WedgeLayout): WedgeReading {
  const physical = strokes.map((stroke) => stroke.physical).join("");
  const produced = strokes.map((stroke) => stroke.produced).join("");
  if (holds(physical)) return physical === produced ? { text: physical } : { text: physical, layout: "us" };
  if (holds(produced)) return { text: produced, layout: "host" };
  const remapped = withDigitsFromAzerty(produced);
  if (remapped !== produced && holds(remapped)) return { text: remapped };
  const difference = sense(physical) - sense(produced);
  const takesHost = difference === 0 ? known === "host" : difference < 0;
  return { text: takesHost ? produced : physical };
}

/**
 * Tells whether a burst is a whole tag number already: exactly 12 symbols, an AIM identifier before them
 * allowed. A longer text never counts, since it may go on.
 */
export function isWholeNumber(strokes: readonly Stroke[]): boolean {
  if (strokes.length !== 12 && strokes.length !== 15) return false;
  const produced = strokes.map((stroke) => stroke.produced).join("");
  const physical = strokes.map((stroke) => stroke.physical).join("");
  return [physical, produced, withDigitsFromAzerty(produced)].some((text) => {
    const bare = text.replace(AIM, "");
    return bare.length === 12 && parseTagNumber(bare) !== undefined;
  });
}

function holds(text: string): boolean {
  return readScannedText(text).code === "number";
}

function withDigitsFromAzerty(text: string): string {
  return [...text]
    .map((char) => (AZERTY_DIGITS.includes(char) ? String(AZERTY_DIGITS.indexOf(char)) : char))
    .join("");
}

/** Counts what foreign codes are made of: letters and digits, and the separators of Code 39 for half. */
function sense(text: string): number {
  let score = 0;
  for (const char of text) {
    if (/[0-9A-Za-z]/.test(char)) score += 2;
    else if (CODE_39_SEPARATORS.includes(char)) score += 1;
  }
  return score;
}
