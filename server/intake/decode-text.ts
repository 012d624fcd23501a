/** Largest file that is read, in bytes: 20 MB as operating systems count them. */
export const MOST_FILE_BYTES = 20 * 1024 * 1024;

/** Most rows of one file. One act of twice as many as the ceiling department has members; own judgement. */
export const MOST_ROWS = 50_000;

export type Encoding = "UTF-8" | "Windows-1252";

/** Why a file was not read. Nothing of it was kept. */
export type FileRefusal =
  | { readonly code: "file-too-large"; readonly bytes: number; readonly most: number }
  | { readonly code: "too-many-rows"; readonly most: number }
  | { readonly code: "file-empty" }
  /** A workbook, a document or a picture: it must be saved as CSV first. */
  | { readonly code: "file-of-another-kind"; readonly what: "workbook" | "old workbook" | "PDF" | "picture" }
  | { readonly code: "file-in-utf-16" }
  | { readonly code: "file-binary"; readonly byte: number; readonly at: number }
  | { readonly code: "quote-never-closes"; readonly row: number }
  | { readonly code: "no-header" };

/** Characters 0x80 to 0x9F of Windows-1252; a blank is a byte that it does not use. Source: WHATWG Encoding, index windows-1252. */
const UPPER = "€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ";

const OTHER_KINDS = [
  { what: "workbook", starts: [0x50, 0x4b, 0x03, 0x04] },
  { what: "old workbook", starts: [0xd0, 0xcf, 0x11, 0xe0] },
  { what: "PDF", starts: [0x25, 0x50, 0x44, 0x46] },
  { what: "picture", starts: [0x89, 0x50, 0x4e, 0x47] },
  { what: "picture", starts: [0xff, 0xd8, 0xff] },
] as const;

/**
 * Turns the bytes of a file into text: UTF-8 where they are valid UTF-8 (with or without a byte order mark), else
 * Windows-1252. Binary files are refused, since a table read from them would be nonsense row by row.
 */
export function decodeText(
  bytes: Uint8Array,
  most = MOST_FILE_BYTES,
): { readonly text: string; readonly encoding: Encoding } | { readonly refusal: FileRefusal } {
  if (bytes.length > most) {
    return { refusal: { code: "file-too-large", bytes: bytes.length, most } };
  }
  const other = OTHER_KINDS.find(({ starts }) => starts.every((byte, at) => bytes[at] === byte));
  if (other) return { refusal: { code: "file-of-another-kind", what: other.what } };
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return { refusal: { code: "file-in-utf-16" } };
  }
  const at = bytes.findIndex(isControl);
  if (at >= 0) return { refusal: { code: "file-binary", byte: bytes[at] ?? 0, at } };
  const text = decodeUtf8(bytes);
  if (text !== undefined)
    return text.trim() === "" ? { refusal: { code: "file-empty" } } : { text, encoding: "UTF-8" };
  const unused = bytes.findIndex((byte) => byte >= 0x80 && byte <= 0x9f && UPPER[byte - 0x80] === " ");
  if (unused >= 0) return { refusal: { code: "file-binary", byte: bytes[unused] ?? 0, at: unused } };
  return { text: decodeWindows1252(bytes), encoding: "Windows-1252" };
}

/** Control characters that no spreadsheet writes into text; tab, line feed, vertical tab, form feed and CR are written. */
function isControl(byte: number): boolean {
  return byte < 0x09 || (byte > 0x0d && byte < 0x20) || byte === 0x7f;
}

function decodeUtf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** By our own table: some releases of Node decode bytes 0x80 to 0x9F as Latin-1 under this name. */
function decodeWindows1252(bytes: Uint8Array): string {
  const latin = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
  return latin.replace(/[\u0080-\u009f]/g, (sign) => UPPER[sign.charCodeAt(0) - 0x80] ?? sign);
}
