import type { KeyEvent } from "../../web/scan/wedge-burst.ts";
import { isHolding, stepWedge, type WedgeEffect, wakeAt, wedgeAtRest } from "../../web/scan/wedge-reader.ts";

export interface UnderKeys {
  /** What the text field holds at the end. */
  readonly field: string;
  readonly scans: readonly string[];
  /** Enter and Tab keys that reached the page. */
  readonly confirms: number;
  /** What reached the page outside fields, as shortcuts would see it. */
  readonly page: string;
}

/**
 * Plays keys against the reader as a browser would: effects first, then the key's own action if it was not
 * swallowed; Alt codes enter their character when Alt is released; silences are reported when they are due,
 * which on a page that gets its keys late (lagMs) is before the keys that were struck in time.
 */
export function play(keys: readonly KeyEvent[], lagMs = 0): UnderKeys {
  let state = wedgeAtRest;
  let field = "";
  let page = "";
  let remembered = "";
  let confirms = 0;
  let altDigits = "";
  const scans: string[] = [];
  const carryOut = (effects: readonly WedgeEffect[], target: KeyEvent["target"]) => {
    for (const effect of effects) {
      if (effect.kind === "remember") remembered = field;
      if (effect.kind === "restore") field = remembered;
      if (effect.kind === "scan") scans.push(effect.text);
      if (effect.kind !== "give back") continue;
      const text = effect.strokes.map((stroke) => stroke.produced).join("");
      if (target === "page") page += text;
      else field += text;
    }
    return effects.some((effect) => effect.kind === "swallow");
  };
  let lastTarget: KeyEvent["target"] = "text";
  const silences = (until: number) => {
    for (let due = wakeAt(state); due !== undefined && due < until; due = wakeAt(state)) {
      const step = stepWedge(state, { kind: "silence", time: due });
      state = step.state;
      carryOut(step.effects, lastTarget);
    }
  };
  for (const key of keys) {
    silences(key.time + lagMs);
    lastTarget = key.target;
    const step = stepWedge(state, key);
    state = step.state;
    const isSwallowed = carryOut(step.effects, key.target);
    if (key.altKey && /^Numpad\d$/.test(key.code) && key.kind === "down") altDigits += key.key;
    if (key.kind === "up" && key.key === "Alt" && altDigits !== "") {
      if (!isHolding(state) && !isSwallowed && key.target === "text")
        field += String.fromCharCode(Number(altDigits));
      altDigits = "";
    }
    if (isSwallowed || key.kind === "up" || key.altKey || key.ctrlKey) continue;
    if (key.key === "Enter" || key.key === "Tab") confirms += 1;
    else if (key.key.length === 1 && key.target === "page") page += key.key;
    else if (key.key.length === 1) field += key.key;
    else if (key.key === "Backspace") field = field.slice(0, -1);
  }
  silences(Number.POSITIVE_INFINITY);
  return { field, scans, confirms, page };
}
