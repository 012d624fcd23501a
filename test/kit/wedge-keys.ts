import type { KeyEvent, KeyTarget } from "../../web/scan/wedge-burst.ts";

/** A keyboard layout: what each physical key makes plain and with Shift. */
export type Layout = Readonly<Record<string, readonly [string, string]>>;

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const DIGIT_ROW = [
  "Digit1",
  "Digit2",
  "Digit3",
  "Digit4",
  "Digit5",
  "Digit6",
  "Digit7",
  "Digit8",
  "Digit9",
  "Digit0",
];
const ROWS = {
  top: [
    "KeyQ",
    "KeyW",
    "KeyE",
    "KeyR",
    "KeyT",
    "KeyY",
    "KeyU",
    "KeyI",
    "KeyO",
    "KeyP",
    "BracketLeft",
    "BracketRight",
  ],
  home: ["KeyA", "KeyS", "KeyD", "KeyF", "KeyG", "KeyH", "KeyJ", "KeyK", "KeyL", "Semicolon", "Quote"],
  bottom: ["KeyZ", "KeyX", "KeyC", "KeyV", "KeyB", "KeyN", "KeyM", "Comma", "Period", "Slash"],
};

function layout(rows: readonly (readonly [readonly string[], string, string])[]): Layout {
  return Object.fromEntries(
    rows.flatMap(([codes, plain, shifted]) =>
      codes.map((code, index) => [code, [plain[index] ?? "", shifted[index] ?? ""] as const] as const),
    ),
  );
}

const space = [["Space"], " ", " "] as const;
const letterKeys = (plain: string, codes: readonly string[]) => [codes, plain, plain.toUpperCase()] as const;

export const usLayout = layout([
  [DIGIT_ROW, "1234567890", "!@#$%^&*()"],
  [["Minus", "Equal", "Backquote", "Backslash"], "-=`\\", "_+~|"],
  [ROWS.top, "qwertyuiop[]", "QWERTYUIOP{}"],
  [ROWS.home, "asdfghjkl;'", 'ASDFGHJKL:"'],
  [ROWS.bottom, "zxcvbnm,./", "ZXCVBNM<>?"],
  space,
]);
/** French: digits need Shift. `^` is a dead key on the host. */
export const azertyLayout = layout([
  [DIGIT_ROW, "&é\"'(-è_çà", "1234567890"],
  [["Minus", "Equal", "Backquote", "Backslash"], ")=²*", "°+~µ"],
  [ROWS.top, "azertyuiop^$", "AZERTYUIOP¨£"],
  [ROWS.home, "qsdfghjklmù", "QSDFGHJKLM%"],
  [ROWS.bottom, "wxcvbn,;:!", "WXCVBN?./§"],
  space,
]);
export const qwertzLayout = layout([
  [DIGIT_ROW, "1234567890", '!"§$%&/()='],
  [["Minus", "Backslash"], "ß#", "?'"],
  [ROWS.top, "qwertzuiopü+", "QWERTZUIOPÜ*"],
  [ROWS.home, "asdfghjklöä", "ASDFGHJKLÖÄ"],
  [ROWS.bottom, "yxcvbnm,.-", "YXCVBNM;:_"],
  space,
]);
export const cyrillicLayout = layout([
  [DIGIT_ROW, "1234567890", '!"№;%:?*()'],
  [["Minus", "Equal", "Backslash"], "-=\\", "_+/"],
  letterKeys("йцукенгшщзхъ", ROWS.top),
  letterKeys("фывапролджэ", ROWS.home),
  [ROWS.bottom, "ячсмитьбю.", "ЯЧСМИТЬБЮ,"],
  space,
]);

export interface WedgeRun {
  /** How the scanner is set; the US layout as it comes from the box. */
  readonly scanner?: Layout;
  /** How the computer is set. */
  readonly host?: Layout;
  readonly start?: number;
  readonly everyMs?: number;
  readonly target?: KeyTarget;
  readonly end?: "Enter" | "Tab" | "none";
}

export function aKey(given: Partial<KeyEvent> & { readonly key: string; readonly time: number }): KeyEvent {
  return {
    kind: "down",
    code: "",
    shiftKey: false,
    altKey: false,
    ctrlKey: false,
    altGraph: false,
    isComposing: false,
    repeat: false,
    target: "text",
    ...given,
  };
}

/** The keys that a scanner sends for a text, as the host's browser reports them. */
export function wedgeKeys(text: string, run: WedgeRun = {}): KeyEvent[] {
  const {
    scanner = usLayout,
    host = usLayout,
    start = 1_000,
    everyMs = 8,
    target = "text",
    end = "Enter",
  } = run;
  const keys = [...text].map((char, index) => {
    const { code, shiftKey } = keyFor(char, scanner);
    const key = host[code]?.[shiftKey ? 1 : 0] ?? "Dead";
    return aKey({ code, key, shiftKey, target, time: start + index * everyMs });
  });
  if (end !== "none") keys.push(aKey({ code: end, key: end, target, time: start + text.length * everyMs }));
  return keys;
}

/** The keys of a person who types a text, with the pauses given in turn. */
export function typedKeys(
  text: string,
  start: number,
  pausesMs: readonly number[],
  target: KeyTarget = "text",
): KeyEvent[] {
  let time = start;
  return [...text].map((char, index) => {
    if (index > 0) time += pausesMs[(index - 1) % pausesMs.length] ?? 0;
    const { code, shiftKey } = keyFor(char, usLayout);
    return aKey({ code, key: char, shiftKey, target, time });
  });
}

/** The same text as Alt + keypad codes, each character three digits. */
export function altKeys(
  text: string,
  start: number,
  everyMs: number,
  target: KeyTarget = "text",
): KeyEvent[] {
  let time = start - everyMs;
  const next = () => {
    time += everyMs;
    return time;
  };
  return [...text].flatMap((char) => [
    aKey({ code: "AltLeft", key: "Alt", altKey: true, target, time: next() }),
    ...[...String(char.charCodeAt(0)).padStart(3, "0")].map((digit) =>
      aKey({ code: `Numpad${digit}`, key: digit, altKey: true, target, time: next() }),
    ),
    aKey({ kind: "up", code: "AltLeft", key: "Alt", target, time: next() }),
  ]);
}

function keyFor(char: string, layoutOfScanner: Layout): { code: string; shiftKey: boolean } {
  for (const [code, [plain, shifted]] of Object.entries(layoutOfScanner)) {
    if (plain === char) return { code, shiftKey: false };
    if (shifted === char) return { code, shiftKey: true };
  }
  if (LETTERS.includes(char.toUpperCase())) throw new Error(`This scanner layout has no key for ${char}`);
  return { code: "", shiftKey: false };
}
