import { altCharacter } from "./alt-code.ts";
import { numpadDigit, usCharacter } from "./us-keyboard.ts";
import {
  type Burst,
  GAP_MS,
  holdsNext,
  isTooSlow,
  type KeyEvent,
  looksScanned,
  newBurst,
  PASSED_KEYS,
  SCAN_KEYS,
  SILENCE_MS,
  scanKeys,
  TERMINATOR_MS,
  touched,
} from "./wedge-burst.ts";
import { isWholeNumber, readStrokes, type Stroke, type WedgeLayout } from "./wedge-reading.ts";

export interface Silence {
  readonly kind: "silence";
  readonly time: number;
}

export type WedgeEffect =
  /** A burst may begin with this key: remember what the field holds. Comes before the key acts. */
  | { readonly kind: "remember" }
  /** Keep this very key from the page. */
  | { readonly kind: "swallow" }
  /** Put the field back to what was remembered: its last characters belong to a scan. */
  | { readonly kind: "restore" }
  /** These keys were a person's: enter them where the burst began, before the key at hand acts. */
  | { readonly kind: "give back"; readonly strokes: readonly Stroke[] }
  | { readonly kind: "scan"; readonly text: string };

export interface WedgeState {
  readonly burst?: Burst;
  /** Ended by a silence that a key may still disprove: it was struck in time and only came late to a busy page. */
  readonly ended?: Burst;
  readonly terminatorUntil?: number;
  readonly layout?: WedgeLayout;
}
export interface WedgeStep {
  readonly state: WedgeState;
  readonly effects: readonly WedgeEffect[];
}

export const wedgeAtRest: WedgeState = {};

/** When a silence must be reported to the reader, on the same clock as the keys; undefined while nothing waits. */
export function wakeAt(state: WedgeState): number | undefined {
  const { burst } = state;
  if (!burst) return undefined;
  return burst.lastTime + (burst.reported > 0 || looksScanned(burst, SCAN_KEYS) ? SILENCE_MS : GAP_MS);
}

/** Whether a character that arrives without a key of its own (an Alt code) belongs to a held burst. */
export function isHolding(state: WedgeState): boolean {
  return state.burst?.strokes.at(-1)?.isHeld ?? false;
}

/** Takes one key or one silence. Effects are to be carried out in order, before the key's own action. */
export function stepWedge(before: WedgeState, input: KeyEvent | Silence): WedgeStep {
  if (input.kind === "silence") return takeSilence(before, input.time);
  if (input.kind === "up")
    return input.key === "Alt" ? endAltCode(before, input) : { state: before, effects: [] };
  return takeKeyDown(reopened(before, input), input);
}

function takeKeyDown(before: WedgeState, input: KeyEvent): WedgeStep {
  if (isTerminator(input)) return takeTerminator(before, input);
  if (!before.burst || input.time - before.burst.lastTime < GAP_MS) return takeKey(before, input);
  const paused = close(before, false);
  const next = takeKey(paused.state, input);
  return { state: next.state, effects: [...paused.effects, ...next.effects] };
}

function takeSilence(before: WedgeState, time: number): WedgeStep {
  const due = wakeAt(before);
  if (due === undefined || time < due || !before.burst) return { state: before, effects: [] };
  const { state, effects } = close(before, false);
  const strokes = before.burst.strokes.map((stroke) => ({ ...stroke, isHeld: false }));
  const reported = effects.some((effect) => effect.kind === "scan") ? strokes.length : before.burst.reported;
  return { state: { ...state, ended: { ...before.burst, strokes, reported } }, effects };
}

function reopened(state: WedgeState, input: KeyEvent): WedgeState {
  const { ended, ...rest } = state;
  if (!ended || input.time - ended.lastTime >= SILENCE_MS) return rest;
  return { ...rest, burst: ended };
}

function takeKey(state: WedgeState, input: KeyEvent): WedgeStep {
  if (input.isComposing || input.repeat) return close(state, false);
  if (isModifier(input.key)) return { state: withBurst(state, touched(state.burst, input)), effects: [] };
  if (input.altKey && !input.altGraph) return takeAltDigit(state, input);
  if (input.ctrlKey) return takeControl(state, input);
  const isDead = input.key === "Dead";
  if (input.key.length !== 1 && !isDead) return close(state, false);
  const stroke = {
    physical:
      (input.altGraph ? undefined : usCharacter(input.code, input.shiftKey)) ??
      (input.code ? "\uFFFD" : input.key),
    produced: isDead ? "" : input.key,
  };
  const isFirstSpace = input.key === " " && !state.burst;
  return takeStroke(state, input, { ...stroke, canHold: !isDead && !isFirstSpace });
}

function takeStroke(
  state: WedgeState,
  input: KeyEvent,
  read: { physical: string; produced: string; canHold: boolean },
): WedgeStep {
  const effects: WedgeEffect[] = state.burst ? [] : [{ kind: "remember" }];
  const old = touched(state.burst ?? newBurst(input), input);
  const isHeld = read.canHold && !old.isTyped && holdsNext(old);
  const stroke: Stroke = {
    code: input.code,
    key: input.key,
    shiftKey: input.shiftKey,
    physical: read.physical,
    produced: read.produced,
    isHeld,
  };
  const burst: Burst = { ...old, strokes: [...old.strokes, stroke], altDigits: "" };
  if (isTooSlow(burst)) {
    const held = old.strokes.filter((one) => one.isHeld);
    if (held.length > 0) effects.push({ kind: "give back", strokes: held });
    return { state: withBurst(state, { ...burst, strokes: [], isTyped: true }), effects };
  }
  if (isHeld) effects.push({ kind: "swallow" });
  if (looksScanned(burst, SCAN_KEYS) && burst.reported === 0 && isWholeNumber(burst.strokes)) {
    return report({ ...state, burst }, effects, { ...burst, reported: burst.strokes.length }, input.time);
  }
  return { state: withBurst(state, burst), effects };
}

/** Enter or Tab: ends a scan and is swallowed with it, or else is the person's own key. */
function takeTerminator(state: WedgeState, input: KeyEvent): WedgeStep {
  const { burst } = state;
  const isLate = burst !== undefined && input.time - burst.lastTime >= SILENCE_MS;
  const isScan =
    burst !== undefined && !isLate && (burst.reported > 0 || looksScanned(burst, scanKeys(burst)));
  if (isScan) {
    const ended = close(state, true);
    return {
      state: { ...ended.state, terminatorUntil: input.time + TERMINATOR_MS },
      effects: [...ended.effects, { kind: "swallow" }],
    };
  }
  const ended = close(state, false);
  const isLeftOver = !input.repeat && input.time < (ended.state.terminatorUntil ?? 0);
  return {
    state: ended.state,
    effects: isLeftOver ? [...ended.effects, { kind: "swallow" }] : ended.effects,
  };
}

/** Ends the burst: one scan, or the held keys given back. */
function close(state: WedgeState, isTerminated: boolean): WedgeStep {
  const { burst } = state;
  if (!burst) return { state, effects: [] };
  if (burst.reported > 0) {
    if (burst.strokes.length > burst.reported) return report(state, [], undefined, burst.lastTime);
    return { state: withBurst(state, undefined), effects: [] };
  }
  if (looksScanned(burst, isTerminated ? scanKeys(burst) : SCAN_KEYS)) {
    return report(state, [], undefined, burst.lastTime);
  }
  const held = burst.strokes.filter((stroke) => stroke.isHeld);
  const effects: WedgeEffect[] = held.length > 0 ? [{ kind: "give back", strokes: held }] : [];
  return { state: withBurst(state, undefined), effects };
}

function report(
  state: WedgeState,
  before: readonly WedgeEffect[],
  next: Burst | undefined,
  time: number,
): WedgeStep {
  const { burst } = state;
  if (!burst) return { state, effects: before };
  const { text, layout = state.layout } = readStrokes(burst.strokes, state.layout);
  const hasPassed =
    burst.reported === 0 && burst.target !== "page" && burst.strokes.some((stroke) => !stroke.isHeld);
  const effects: WedgeEffect[] = [
    ...before,
    ...(hasPassed ? [{ kind: "restore" } as const] : []),
    { kind: "scan", text },
  ];
  return {
    state: {
      ...withBurst(state, next),
      ...(layout ? { layout } : {}),
      terminatorUntil: time + TERMINATOR_MS,
    },
    effects,
  };
}

/** Alt + keypad digit: the character comes when Alt is released. */
function takeAltDigit(state: WedgeState, input: KeyEvent): WedgeStep {
  const digit = numpadDigit(input.code);
  if (digit === undefined) return close(state, false);
  const old = touched(state.burst ?? newBurst(input), input);
  const effects: WedgeEffect[] = state.burst ? [] : [{ kind: "remember" }];
  if (!old.isTyped && holdsNext(old)) effects.push({ kind: "swallow" });
  return { state: withBurst(state, { ...old, altDigits: old.altDigits + digit }), effects };
}

function endAltCode(state: WedgeState, input: KeyEvent): WedgeStep {
  const { burst } = state;
  if (!burst || burst.altDigits === "") return { state, effects: [] };
  if (input.time - burst.lastTime >= GAP_MS) return close(state, false);
  const char = altCharacter(burst.altDigits);
  return takeStroke(
    state,
    { ...input, code: "", key: char, shiftKey: false },
    { physical: char, produced: char, canHold: true },
  );
}

/** Control characters (the separators of ISO 15434) come as Control + key; only in the middle of a burst. */
function takeControl(state: WedgeState, input: KeyEvent): WedgeStep {
  const typed = usCharacter(input.code, false);
  const inBurst =
    state.burst !== undefined && !state.burst.isTyped && state.burst.strokes.length >= PASSED_KEYS;
  if (!inBurst || typed === undefined) return close(state, false);
  const char = String.fromCharCode(typed.toUpperCase().charCodeAt(0) & 31);
  return takeStroke(state, input, { physical: char, produced: char, canHold: true });
}

function withBurst(state: WedgeState, burst: Burst | undefined): WedgeState {
  const { burst: _old, ...rest } = state;
  return burst ? { ...rest, burst } : rest;
}

function isTerminator(input: KeyEvent): boolean {
  return (input.key === "Enter" || input.key === "Tab") && !input.altKey && !input.ctrlKey && !input.shiftKey;
}

function isModifier(key: string): boolean {
  return ["Shift", "CapsLock", "Control", "Alt", "AltGraph", "NumLock", "Meta"].includes(key);
}
