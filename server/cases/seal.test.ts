import { expect, test } from "vitest";
import { parseSeal } from "./seal.ts";

const HASH = "0123456789abcdef".repeat(4);

test.each([
  ["as it is printed", `412:${HASH}`, { position: 412, hash: HASH }],
  ["of a day", `2026-03-02:${HASH}`, { day: "2026-03-02", hash: HASH }],
  [
    "typed in groups and in capitals",
    ` 412 : ${HASH.toUpperCase().replace(/(.{8})/g, "$1 ")}\n`,
    { position: 412, hash: HASH },
  ],
  [
    "as an export holds it",
    JSON.stringify({ seal: { position: 412, hash: HASH } }),
    { position: 412, hash: HASH },
  ],
  [
    "as JSON of its own",
    JSON.stringify({ day: "2026-03-02", hash: HASH }),
    { day: "2026-03-02", hash: HASH },
  ],
])("a seal is read %s", (_, text, seal) => {
  expect(parseSeal(text)).toEqual(seal);
});

test.each([
  ["without a position", HASH],
  ["of position 0", `0:${HASH}`],
  ["of a day that is none", `2026-02-30:${HASH}`],
  ["one digit short", `412:${HASH.slice(1)}`],
  ["with a letter that is no digit", `412:${HASH.slice(1)}g`],
  ["in broken JSON", `{"position":412,"hash":"${HASH}"`],
  ["empty", ""],
])("what is no seal is not taken for one: %s", (_, text) => {
  expect(parseSeal(text)).toBeUndefined();
});
