import { expect, test } from "vitest";
import { carrierFromAim } from "./scan-event.ts";

test.each([
  ["]d1C7K3F92CXTKK", "data matrix", "DataMatrix"],
  ["]Q1HTTPS://T.EXAMPLE.ORG/C7K3F92CXTKK", "qr", "QRCode"],
  ["]E04006381333931", "linear", "EANUPC"],
  ["C7K3F92CXTKK", "unknown", ""],
  ["]", "unknown", ""],
])("ISO/IEC 15424 identifiers: %s stands on %s", (text, carrier, symbology) => {
  expect(carrierFromAim(text)).toEqual({ carrier, symbology });
});
