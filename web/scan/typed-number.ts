import { readTypedText } from "../../server/domain/tags/scanned-text.ts";
import {
  foldTagText,
  symbolValues,
  TAG_LENGTH,
  type TagNumber,
} from "../../server/domain/tags/tag-number.ts";
import type { ScanEvent, ScanListener, ScanSource } from "./scan-event.ts";

/** What the typed text is so far. `shown` is the folded text in groups of four, as tags show it. */
export type Typing =
  | { readonly code: "nothing" }
  /** `isLetterMissing`: no number begins with this symbol. `odd`: symbols that no tag carries, once each. */
  | {
      readonly code: "under way";
      readonly shown: string;
      readonly count: number;
      readonly of: number;
      readonly isLetterMissing: boolean;
      readonly odd: string;
    }
  | { readonly code: "holds"; readonly shown: string; readonly number: TagNumber }
  /** Twelve symbols whose check fails. A suggestion is only that: the register and a person have to confirm it. */
  | { readonly code: "does not hold"; readonly shown: string; readonly suggestions: readonly TagNumber[] }
  /** Something else, such as a maker's number or a link: looked up as it stands. */
  | { readonly code: "other code"; readonly text: string };

/** Judges a text while it is typed or when it was pasted. */
export function judgeTyping(text: string): Typing {
  const read = readTypedText(text);
  if (read.code === "nothing") return { code: "nothing" };
  if (read.code === "number") return { code: "holds", shown: inGroups(read.number), number: read.number };
  const symbols = foldTagText(text);
  if (symbols === "") return { code: "nothing" };
  if (read.code === "misread") {
    return {
      code: "does not hold",
      shown: inGroups(symbols),
      suggestions: read.suggestions.map(({ number }) => number),
    };
  }
  if (symbols.length >= TAG_LENGTH || !/^[0-9A-Z?]+$/.test(symbols))
    return { code: "other code", text: text.trim() };
  const values = symbolValues(symbols);
  return {
    code: "under way",
    shown: inGroups(symbols),
    count: symbols.length,
    of: TAG_LENGTH,
    isLetterMissing: /^[0-9]/.test(symbols),
    odd: [...new Set([...symbols].filter((_, index) => values[index] === undefined))].join(""),
  };
}

/** Typing as a source: a screen hands over what was entered. Typing never proves that a tag was scanned back. */
export function typingSource(device = "keyboard"): ScanSource & { enter(text: string): void } {
  let listener: ScanListener | undefined;
  return {
    listen: (next) => {
      listener = next;
    },
    stop: () => {
      listener = undefined;
    },
    enter: (text) => {
      const trimmed = text.trim();
      if (trimmed !== "") listener?.(typedScan(trimmed, device));
    },
  };
}

function typedScan(text: string, device: string): ScanEvent {
  return { text, carrier: "hand", symbology: "", via: "typed", time: Date.now(), device };
}

function inGroups(symbols: string): string {
  return symbols.replace(/(.{4})(?=.)/g, "$1 ");
}
