import { carrierFromAim, type ScanListener, type ScanSource } from "./scan-event.ts";
import { fieldForScan, fillByScan } from "./scan-field.ts";
import type { KeyEvent, KeyTarget } from "./wedge-burst.ts";
import {
  isHolding,
  stepWedge,
  type WedgeEffect,
  type WedgeState,
  wakeAt,
  wedgeAtRest,
} from "./wedge-reader.ts";
import type { Stroke } from "./wedge-reading.ts";

type Field = HTMLInputElement | HTMLTextAreaElement;
interface Remembered {
  readonly element: Element;
  readonly value?: string;
  readonly from?: number | null;
  readonly to?: number | null;
}

/** A timer that is this late means a busy page: keys that came before it may still be queued. */
const LATE_MS = 15;
const TEXT_TYPES = ["text", "search", "email", "number", "password", "tel", "url"];

/** Listens for a wedge anywhere in a window, before the page sees its keys; where the focus is does not matter. */
export function listenForWedge(target: Window, device = "keyboard wedge"): ScanSource {
  let state: WedgeState = wedgeAtRest;
  let listener: ScanListener | undefined;
  let remembered: Remembered | undefined;
  let timer: number | undefined;
  /** How late the last key came: on a busy machine the next one will be as late, so a silence must wait for it. */
  let lagMs = 0;
  let isGivingBack = false;
  const swallowedCodes = new Set<string>();

  const carryOut = (effects: readonly WedgeEffect[], event?: KeyboardEvent) => {
    for (const effect of effects) {
      if (effect.kind === "remember" && event) remembered = remember(event);
      if (effect.kind === "restore" && remembered) restore(remembered);
      if (effect.kind === "swallow" && event) swallow(event);
      if (effect.kind === "give back" && remembered) {
        isGivingBack = true;
        giveBack(remembered.element, effect.strokes);
        isGivingBack = false;
      }
      if (effect.kind === "scan") deliver(effect.text);
    }
    arm();
  };
  const deliver = (text: string) => {
    const field = fieldForScan(remembered?.element);
    if (field) return fillByScan(field, text);
    listener?.({ text, ...carrierFromAim(text), via: "wedge", time: Date.now(), device });
  };
  const swallow = (event: KeyboardEvent) => {
    event.preventDefault();
    event.stopImmediatePropagation();
    if (event.type === "keydown") swallowedCodes.add(event.code);
  };
  const arm = () => {
    target.clearTimeout(timer);
    const due = wakeAt(state);
    if (due === undefined) return;
    timer = target.setTimeout(wake, Math.max(0, due + lagMs - target.performance.now()), due + lagMs);
  };
  const wake = (due: number) => {
    const isLate = target.performance.now() - due > LATE_MS;
    if (isLate) timer = target.setTimeout(silence, 0);
    else silence();
  };
  const silence = () => {
    const step = stepWedge(state, { kind: "silence", time: target.performance.now() });
    state = step.state;
    carryOut(step.effects);
  };

  const onKey = (event: KeyboardEvent) => {
    if (isGivingBack) return;
    if (event.type === "keyup" && swallowedCodes.delete(event.code)) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    const where = keyTarget(event);
    if (where === undefined) return;
    lagMs = Math.max(0, target.performance.now() - event.timeStamp);
    const step = stepWedge(state, readKey(event, where));
    state = step.state;
    carryOut(step.effects, event);
  };
  /** An Alt code enters its character without a key of its own, after Alt is released. */
  const onBeforeInput = (event: InputEvent) => {
    if (!isGivingBack && event.inputType === "insertText" && isHolding(state)) event.preventDefault();
  };

  target.addEventListener("keydown", onKey, { capture: true });
  target.addEventListener("keyup", onKey, { capture: true });
  target.addEventListener("beforeinput", onBeforeInput, { capture: true });
  return {
    listen: (next) => {
      listener = next;
    },
    stop: () => {
      target.clearTimeout(timer);
      target.removeEventListener("keydown", onKey, { capture: true });
      target.removeEventListener("keyup", onKey, { capture: true });
      target.removeEventListener("beforeinput", onBeforeInput, { capture: true });
      listener = undefined;
    },
  };
}

function readKey(event: KeyboardEvent, where: KeyTarget): KeyEvent {
  const altGraph = event.getModifierState("AltGraph");
  return {
    kind: event.type === "keyup" ? "up" : "down",
    code: event.code,
    key: event.key,
    shiftKey: event.shiftKey,
    altKey: event.altKey,
    ctrlKey: (event.ctrlKey || event.metaKey) && !altGraph,
    altGraph,
    isComposing: event.isComposing || event.key === "Process",
    repeat: event.repeat,
    time: event.timeStamp,
    target: where,
  };
}

/** Rich text (contenteditable) cannot be put back character by character: keys there are left alone. */
function keyTarget(event: KeyboardEvent): KeyTarget | undefined {
  const element = event.target;
  if (!(element instanceof HTMLElement)) return "page";
  if (element.isContentEditable) return undefined;
  if (isTextField(element)) return element.readOnly || element.disabled ? "page" : "text";
  return element instanceof HTMLSelectElement || element instanceof HTMLInputElement
    ? nativeTarget(element)
    : "page";
}

/** Buttons, boxes and the like take no characters; dates, ranges and lists take native keys only. */
function nativeTarget(element: HTMLSelectElement | HTMLInputElement): KeyTarget {
  const takesNone = ["button", "submit", "reset", "checkbox", "radio", "image", "file"];
  return takesNone.includes(element.type) ? "page" : "native";
}

function isTextField(element: Element): element is Field {
  if (element instanceof HTMLTextAreaElement) return true;
  return element instanceof HTMLInputElement && TEXT_TYPES.includes(element.type);
}

function remember(event: KeyboardEvent): Remembered {
  const element = event.target instanceof Element ? event.target : document.body;
  if (isTextField(element)) {
    return { element, value: element.value, from: element.selectionStart, to: element.selectionEnd };
  }
  if (element instanceof HTMLInputElement || element instanceof HTMLSelectElement) {
    return { element, value: element.value };
  }
  return { element };
}

function restore({ element, value, from, to }: Remembered): void {
  if (value === undefined || !("value" in element) || element.value === value) return;
  element.value = value;
  if (isTextField(element) && from !== null && from !== undefined)
    element.setSelectionRange(from, to ?? from);
  element.dispatchEvent(new Event("input", { bubbles: true }));
}

function giveBack(element: Element, strokes: readonly Stroke[]): void {
  if (isTextField(element)) insertText(element, strokes.map((stroke) => stroke.produced).join(""));
  else for (const stroke of strokes) pressAgain(element, stroke);
}

/** execCommand keeps the browser's undo and works in number fields, where there is no selection to write to. */
function insertText(field: Field, text: string): void {
  const before = field.value;
  if (document.activeElement === field) document.execCommand("insertText", false, text);
  if (field.value !== before || text === "") return;
  const from = field.selectionStart ?? field.value.length;
  const value = field.value.slice(0, from) + text + field.value.slice(field.selectionEnd ?? from);
  field.value = field.maxLength >= 0 ? value.slice(0, field.maxLength) : value;
  if (field.selectionStart !== null) field.setSelectionRange(from + text.length, from + text.length);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

/** A shortcut that was held is pressed again for the page's own handlers. */
function pressAgain(element: Element, { code, key, shiftKey }: Stroke): void {
  for (const type of ["keydown", "keyup"]) {
    element.dispatchEvent(new KeyboardEvent(type, { code, key, shiftKey, bubbles: true, cancelable: true }));
  }
}
