import { expect, test } from "vitest";
import { decodeText, MOST_FILE_BYTES } from "./decode-text.ts";

const bytes = (...numbers: number[]) => Uint8Array.from(numbers);
const ascii = (text: string) => [...Buffer.from(text, "latin1")];

test("UTF-8 is read with and without its byte order mark", () => {
  const text = "Größe,Kanté\r\n";
  const expected = { text, encoding: "UTF-8" };
  expect(decodeText(Buffer.from(text))).toEqual(expected);
  expect(decodeText(Buffer.from(`\ufeff${text}`))).toEqual(expected);
});

test("WHATWG Encoding, index windows-1252: all 27 characters between 0x80 and 0x9F are read, and Latin-1 above", () => {
  // index-windows-1252.txt, pointers 0 to 31 without the five that map to C1 controls.
  const index: Record<number, number> = {
    128: 0x20ac,
    130: 0x201a,
    131: 0x0192,
    132: 0x201e,
    133: 0x2026,
    134: 0x2020,
    135: 0x2021,
    136: 0x02c6,
    137: 0x2030,
    138: 0x0160,
    139: 0x2039,
    140: 0x0152,
    142: 0x017d,
    145: 0x2018,
    146: 0x2019,
    147: 0x201c,
    148: 0x201d,
    149: 0x2022,
    150: 0x2013,
    151: 0x2014,
    152: 0x02dc,
    153: 0x2122,
    154: 0x0161,
    155: 0x203a,
    156: 0x0153,
    158: 0x017e,
    159: 0x0178,
    233: 0xe9,
    255: 0xff,
  };
  const given = Object.keys(index).map(Number);
  const text = String.fromCharCode(...Object.values(index));
  expect(decodeText(bytes(...given))).toEqual({ text, encoding: "Windows-1252" });
});

test("text with a Windows-1252 apostrophe is read, not refused", () => {
  expect(decodeText(bytes(...ascii("Men"), 0x92, ...ascii("s")))).toEqual({
    text: "Men’s",
    encoding: "Windows-1252",
  });
});

test.each([
  ["a workbook", bytes(0x50, 0x4b, 0x03, 0x04, 0x14), { code: "file-of-another-kind", what: "workbook" }],
  [
    "an old workbook",
    bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1),
    { code: "file-of-another-kind", what: "old workbook" },
  ],
  ["a PDF", bytes(...ascii("%PDF-1.7")), { code: "file-of-another-kind", what: "PDF" }],
  ["a picture", bytes(0x89, 0x50, 0x4e, 0x47, 0x0d), { code: "file-of-another-kind", what: "picture" }],
  ["a photograph", bytes(0xff, 0xd8, 0xff, 0xe0), { code: "file-of-another-kind", what: "picture" }],
  ["UTF-16", bytes(0xff, 0xfe, 0x61, 0x00), { code: "file-in-utf-16" }],
  ["bytes with a NUL", bytes(0x61, 0x00, 0x62), { code: "file-binary", byte: 0, at: 1 }],
  ["a byte that Windows-1252 does not use", bytes(0x61, 0x81), { code: "file-binary", byte: 0x81, at: 1 }],
  ["nothing", bytes(), { code: "file-empty" }],
  ["white space alone", bytes(...ascii(" \r\n")), { code: "file-empty" }],
])("%s is refused politely", (_what, given, refusal) => {
  expect(decodeText(given)).toEqual({ refusal });
});

test("20 MB are read, one byte more is not", () => {
  expect(decodeText(new Uint8Array(MOST_FILE_BYTES).fill(0x61))).toMatchObject({ encoding: "UTF-8" });
  expect(decodeText(new Uint8Array(MOST_FILE_BYTES + 1).fill(0x61))).toMatchObject({
    refusal: { code: "file-too-large" },
  });
});
