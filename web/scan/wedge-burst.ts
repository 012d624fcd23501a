import type { Stroke } from "./wedge-reading.ts";

// Scanners send a key about every 7 to 16 ms, people are slower than 50 ms over any length of text.
export const GAP_MS = 50;
const MEDIAN_MS = 25;
export const SILENCE_MS = 80;
export const SCAN_KEYS = 8;
/** Where no field has the focus there is no typed text to protect, so a short foreign code with its Enter will do. */
const SHORT_SCAN_KEYS = 4;
/** So many keys reach a text field before the burst is held: two or three quick keys are a person's. */
export const PASSED_KEYS = 3;
/** The scanner's Enter or Tab may come late, and some send two; none of them may confirm anything. */
export const TERMINATOR_MS = 150;

/**
 * Where the keys go: a text field that text can be inserted into, a field that only takes native keys
 * (date, select), or the page itself.
 */
export type KeyTarget = "text" | "native" | "page";

export interface KeyEvent {
  readonly kind: "down" | "up";
  readonly code: string;
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  /** Control or Meta, without AltGr. */
  readonly ctrlKey: boolean;
  readonly altGraph: boolean;
  readonly isComposing: boolean;
  readonly repeat: boolean;
  /** Milliseconds on the clock of event.timeStamp, never the moment of handling: a busy page must not stretch gaps. */
  readonly time: number;
  readonly target: KeyTarget;
}

/** Keys less than GAP_MS apart: a scan, or the start of one, or a person who is quick. */
export interface Burst {
  readonly target: KeyTarget;
  readonly strokes: readonly Stroke[];
  readonly gaps: readonly number[];
  readonly lastTime: number;
  /** Keypad digits since Alt went down. */
  readonly altDigits: string;
  /** Too slow to be a scan: pass everything until a pause. */
  readonly isTyped: boolean;
  /** How many strokes an early scan has reported; what follows is held and reported with it as one longer code. */
  readonly reported: number;
}

export function newBurst(input: KeyEvent): Burst {
  return {
    target: input.target,
    strokes: [],
    gaps: [],
    lastTime: input.time,
    altDigits: "",
    isTyped: false,
    reported: 0,
  };
}

export function touched<Old extends Burst | undefined>(burst: Old, input: KeyEvent): Old {
  if (!burst || (burst.strokes.length === 0 && burst.altDigits === "" && !burst.isTyped)) return burst;
  return { ...burst, gaps: [...burst.gaps, input.time - burst.lastTime], lastTime: input.time };
}

export function holdsNext(burst: Burst): boolean {
  if (burst.target === "page" || burst.reported > 0) return true;
  return burst.target === "text" && burst.strokes.length >= PASSED_KEYS;
}

/** Whether so many keys have come so slowly that no scanner sent them. */
export function isTooSlow(burst: Burst): boolean {
  if (burst.isTyped || burst.reported > 0) return false;
  return burst.gaps.length >= SCAN_KEYS - 1 && median(burst.gaps) >= MEDIAN_MS;
}

export function looksScanned(burst: Burst, keys: number): boolean {
  return !burst.isTyped && burst.strokes.length >= keys && median(burst.gaps) < MEDIAN_MS;
}

export function scanKeys(burst: Burst): number {
  return burst.target === "page" ? SHORT_SCAN_KEYS : SCAN_KEYS;
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.POSITIVE_INFINITY;
}
