import { type Repair, suggestRepairs } from "./repair.ts";
import { foldTagText, hasTagShape, parseTagNumber, TAG_LENGTH, type TagNumber } from "./tag-number.ts";

/** How a foreign code is built, as far as its text shows it. A link is never opened. */
export type ForeignFormat = "GS1 element string" | "GS1 digital link" | "ISO/IEC 15434" | "link" | "plain";

/**
 * What a scan says. `text` is what came in, untouched; `key` is the text under which a foreign code is looked up:
 * without symbology identifier and control characters, which one reader sends and another loses.
 * A number names a tag, place, member, badge or action: the register decides which, or that it knows none, and
 * then the key may still be a bound foreign code. So may that of a misread: twelve symbols can be a maker's serial.
 */
export type ScannedText =
  | { readonly code: "nothing"; readonly text: string }
  | {
      readonly code: "number";
      readonly text: string;
      readonly key: string;
      readonly number: TagNumber;
      readonly host?: string;
    }
  | {
      readonly code: "misread";
      readonly text: string;
      readonly key: string;
      readonly symbols: string;
      readonly suggestions: readonly Repair[];
    }
  | {
      readonly code: "foreign";
      readonly text: string;
      readonly key: string;
      readonly format: ForeignFormat;
    };

/** `]`, a letter for the symbology and a modifier, which a reader may put before its text. Source: ISO/IEC 15424. */
const SYMBOLOGY_IDENTIFIER = /^\][A-Za-z][0-9A-Za-z]/;
/** Symbology identifiers that promise GS1 data: GS1-128, DataBar, Data Matrix, QR, DotCode. Source: ISO/IEC 15424. */
const GS1_IDENTIFIER = /^\](?:C1|e0|d2|Q3|J1)/;
const GROUP_SEPARATOR = "\u001d";
/** Message header of ISO/IEC 15434, which survives where control characters are lost. */
const ENVELOPE_HEADER = "[)>";
/** Primary keys that open the path of a GS1 digital link. Source: GS1 Digital Link URI syntax, from memory. */
const DIGITAL_LINK =
  /\/(?:00|01|253|255|401|402|414|417|8003|8004|8006|8010|8013|8017|8018)\/[0-9A-Za-z%._-]+/;
const LINK = /^https?:\/\/([^/?#\s]+)([^?#\s]*)/i;

/**
 * Reads the text of any scan, whatever sent it: strips a symbology identifier and control characters, takes a bare
 * number or the last part of an https link, and keeps everything else as a foreign code. Twelve symbols whose check
 * symbols do not hold, or with up to two `?`, are a misread with suggestions. Never opens a link, never throws.
 */
export function readScannedText(text: string): ScannedText {
  const bare = text.replace(SYMBOLOGY_IDENTIFIER, "");
  const key = withoutControls(bare).trim();
  if (key === "") return { code: "nothing", text };
  const format =
    gs1Format(text, bare, key) ?? (key.startsWith(ENVELOPE_HEADER) ? "ISO/IEC 15434" : undefined);
  if (format !== undefined) return { code: "foreign", text, key, format };
  const link = LINK.exec(key);
  if (link) return readLink(text, key, link[1] ?? "", link[2] ?? "");
  const number = parseTagNumber(key);
  if (number !== undefined) return { code: "number", text, key, number };
  return readMisread(text, key) ?? { code: "foreign", text, key, format: "plain" };
}

/**
 * Reads what a person types as a number, where a symbol that no tag carries counts as unreadable instead of making
 * the text a foreign code. Text of another length than twelve is read as a scan is.
 */
export function readTypedText(text: string): ScannedText {
  const symbols = foldTagText(text);
  const read = readScannedText(text);
  if (read.code !== "foreign" || read.format !== "plain" || symbols.length !== TAG_LENGTH) return read;
  const suggestions = suggestRepairs(symbols);
  return suggestions.length === 0 ? read : { code: "misread", text, key: read.key, symbols, suggestions };
}

function readLink(text: string, key: string, host: string, path: string): ScannedText {
  const last = path.replace(/\/+$/, "").split("/").at(-1) ?? "";
  const number = parseTagNumber(last);
  return number === undefined
    ? { code: "foreign", text, key, format: "link" }
    : { code: "number", text, key, number, host: host.toLowerCase() };
}

function readMisread(text: string, key: string): ScannedText | undefined {
  const symbols = foldTagText(key);
  const unreadable = symbols.split("?").length - 1;
  const filled = symbols.replaceAll("?", "X");
  if (unreadable > 2 || !hasTagShape(filled)) return undefined;
  return { code: "misread", text, key, symbols, suggestions: suggestRepairs(symbols) };
}

function gs1Format(text: string, bare: string, key: string): ForeignFormat | undefined {
  if (LINK.test(key)) return DIGITAL_LINK.test(key) ? "GS1 digital link" : undefined;
  const isMarked = GS1_IDENTIFIER.test(text) || bare.startsWith(GROUP_SEPARATOR);
  return isMarked || isElementString(key) || /^\(\d{2,4}\)[^()]+/.test(key)
    ? "GS1 element string"
    : undefined;
}

/** `01` and a GTIN of 14 digits whose check digit holds: how an element string looks once its FNC1 is lost. */
function isElementString(key: string): boolean {
  const gtin = /^01(\d{14})/.exec(key)?.[1];
  if (gtin === undefined) return false;
  const sum = [...gtin].reduce((total, digit, index) => total + Number(digit) * (index % 2 === 0 ? 3 : 1), 0);
  return sum % 10 === 0;
}

function withoutControls(text: string): string {
  return [...text]
    .filter((symbol) => {
      const point = symbol.codePointAt(0) ?? 0;
      return point >= 0x20 && !(point >= 0x7f && point <= 0x9f) && point !== 0xfeff;
    })
    .join("");
}
