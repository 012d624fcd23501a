import fc from "fast-check";
import { expect, test } from "vitest";
import { readScannedText, readTypedText } from "./scanned-text.ts";

test("tag facts 2.2: a bare number is taken with symbology identifier and line ends stripped", () => {
  for (const text of [
    "C7K3F92CXTKK",
    "]d1C7K3F92CXTKK\r\n",
    "]Q1c7k3f92cxtkk\t",
    "]z0C7K3 F92C XTKK",
    "\u0002C7K3F92CXTKK",
  ])
    expect(readScannedText(text)).toMatchObject({ code: "number", number: "C7K3F92CXTKK", text });
});

test("tag facts 2.2: the last part of a link is the number, in upper and lower case, and the host is told", () => {
  for (const text of [
    "HTTPS://T.EXAMPLE.ORG/C7K3F92CXTKK",
    "https://t.example.org/c7k3f92cxtkk/",
    "]Q1HTTPS://T.EXAMPLE.ORG/C7K3F92CXTKK\r",
    "https://t.example.org/tags/C7K3F92CXTKK?from=camera#top",
  ])
    expect(readScannedText(text)).toMatchObject({
      code: "number",
      number: "C7K3F92CXTKK",
      host: "t.example.org",
    });
});

test("a link without a number is kept as text, foreign, whatever its query says", () => {
  expect(readScannedText("https://example.org/?tag=C7K3F92CXTKK")).toMatchObject({
    code: "foreign",
    format: "link",
  });
  expect(readScannedText("https://example.org/x/C7K3F92CXTK1")).toMatchObject({
    code: "foreign",
    format: "link",
  });
});

test("GS1 element strings are foreign: marked by the reader, by a group separator, by brackets or by a GTIN that holds", () => {
  for (const text of [
    "]d20109506000134352",
    "]C10109506000134352",
    "\u001d0109506000134352",
    "(01)09506000134352(21)C7K3F92CXTKK",
    "010950600013435221C7K3F92CXTKK",
  ])
    expect(readScannedText(text)).toMatchObject({ code: "foreign", format: "GS1 element string", text });
  expect(readScannedText("0109506000134353")).toMatchObject({ code: "foreign", format: "plain" });
});

test("a GS1 digital link stays foreign even where its serial could be a tag number", () => {
  expect(readScannedText("https://id.example/01/09506000134352/21/C7K3F92CXTKK")).toMatchObject({
    code: "foreign",
    format: "GS1 digital link",
  });
  expect(readScannedText("https://id.example/8004/0950600013435C7K3")).toMatchObject({
    code: "foreign",
    format: "GS1 digital link",
  });
});

test("an ISO/IEC 15434 envelope is foreign, and its key is the same whether control characters came through", () => {
  const whole = readScannedText("[)>\u001e06\u001d17V1KDX5\u001dSA1042\u001e\u0004");
  const lost = readScannedText("[)>0617V1KDX5SA1042");
  expect(whole).toMatchObject({ code: "foreign", format: "ISO/IEC 15434", key: "[)>0617V1KDX5SA1042" });
  expect(lost).toMatchObject({ code: "foreign", key: "[)>0617V1KDX5SA1042" });
});

test("another maker's code is kept as it is", () => {
  expect(readScannedText("12345678")).toEqual({
    code: "foreign",
    text: "12345678",
    key: "12345678",
    format: "plain",
  });
  expect(readScannedText("]E0012345678905\r\n")).toMatchObject({ code: "foreign", key: "012345678905" });
  expect(readScannedText("Ärmel/27 b")).toMatchObject({ code: "foreign", key: "Ärmel/27 b" });
});

test("twelve symbols whose check symbols do not hold are a misread with what was perhaps meant", () => {
  expect(readScannedText("C7K3F92CXTKJ")).toMatchObject({
    code: "misread",
    symbols: "C7K3F92CXTKJ",
    suggestions: [{ change: "one symbol", number: "C7K3F92CXTKK", at: 12 }],
  });
  expect(readScannedText("?7K3F92CXTK?")).toMatchObject({
    code: "misread",
    suggestions: [{ change: "unreadable symbols", number: "C7K3F92CXTKK" }],
  });
});

test("a scan that holds only control characters says nothing", () => {
  expect(readScannedText("\r\n")).toEqual({ code: "nothing", text: "\r\n" });
  expect(readScannedText("]d1")).toMatchObject({ code: "nothing" });
});

test("a typed symbol that no tag carries is a misread, while the same text scanned is a foreign code", () => {
  expect(readScannedText("C7K3F92CXTQK")).toMatchObject({ code: "foreign", format: "plain" });
  expect(readTypedText("c7k3 f92c xtqk")).toMatchObject({
    code: "misread",
    key: "c7k3 f92c xtqk",
    suggestions: [{ number: "C7K3F92CXTKK" }],
  });
  expect(readTypedText("C7K3 F92C XTKK")).toMatchObject({ code: "number" });
  expect(readTypedText("C7K3 F92C")).toMatchObject({ code: "foreign" });
});

test("any text has an answer that keeps the text", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => readScannedText(text).text === text),
    { numRuns: 1_000 },
  );
});

test("tag facts 2.2: random text of twelve letters and digits is taken as a number about once in 100,000", () => {
  const twelve = fc.stringMatching(/^[0-9A-Z]{12}$/);
  let taken = 0;
  fc.assert(
    fc.property(twelve, (text) => {
      if (readScannedText(text).code === "number") taken += 1;
      return true;
    }),
    { numRuns: 20_000, seed: 7 },
  );
  expect(taken).toBeLessThan(10);
});
