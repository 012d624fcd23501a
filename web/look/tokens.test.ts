import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const css = readFileSync(new URL("./tokens.css", import.meta.url), "utf8");

function block(opening: string): ReadonlyMap<string, string> {
  const start = css.indexOf(opening);
  expect(start, `no block "${opening}"`).toBeGreaterThanOrEqual(0);
  const body = css.slice(start + opening.length, css.indexOf("}", start));
  return new Map(
    [...body.matchAll(/--([\w-]+):\s*([^;]+);/g)].map(([, name = "", value = ""]) => [name, value]),
  );
}

const light = block(":root {\n  color-scheme: light;");
const dark = block(':root:not([data-theme="light"]) {');
const switched = block(':root[data-theme="dark"] {');

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const channels = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  const [r = 0, g = 0, b = 0] = channels.map((c) =>
    c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(theme: ReadonlyMap<string, string>, one: string, other: string): number {
  const [a, b] = [one, other].map((name) => luminance(theme.get(name) ?? "none"));
  const [high, low] = [Math.max(a ?? 0, b ?? 0), Math.min(a ?? 0, b ?? 0)];
  return (high + 0.05) / (low + 0.05);
}

const TEXT = [
  ["ink", "ground"],
  ["ink", "cloth"],
  ["ink", "shell"],
  ["ink", "liner"],
  ["ink2", "ground"],
  ["ink2", "cloth"],
  ["ink2", "shell"],
  ["ink2", "liner"],
  ["thread", "shell"],
  ["thread", "liner"],
  ["snap", "ground"],
  ["snap", "cloth"],
  ["snap", "snap-cloth"],
  ["ink", "snap-cloth"],
  ["on-dye", "dye"],
  ["on-dye2", "dye"],
  ["knot-ink", "thread"],
] as const;
const LINES = [
  ["line", "ground"],
  ["line", "cloth"],
  ["top", "dye"],
  ["focus", "ground"],
  ["focus", "cloth"],
  ["focus-on-dye", "dye"],
] as const;

describe("colour tokens", () => {
  it("are the same in dark whether the system or the switch asks for it", () => {
    expect([...switched]).toEqual([...dark]);
    expect([...dark.keys()]).toEqual([...light.keys()]);
  });

  it.each([
    ["light", light],
    ["dark", dark],
  ] as const)("give text 4.5 to 1 in %s (WCAG 2.2, 1.4.3)", (_, theme) => {
    for (const [one, other] of TEXT) {
      expect(contrast(theme, one, other), `${one} on ${other}`).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each([
    ["light", light],
    ["dark", dark],
  ] as const)("give meaningful lines 3 to 1 in %s (WCAG 2.2, 1.4.11)", (_, theme) => {
    for (const [one, other] of LINES) {
      expect(contrast(theme, one, other), `${one} on ${other}`).toBeGreaterThanOrEqual(3);
    }
  });

  it("hold no colour in print", () => {
    const print = block("@media print {\n  :root {");
    for (const value of print.values()) expect(value).toMatch(/^(#000|#fff|transparent)$/);
    expect([...print.keys()]).toEqual([...light.keys()]);
  });
});
