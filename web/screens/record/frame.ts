import type { ComponentChildren, VNode } from "preact";

/** What a page away from the bench gives its frame: the tape's words and what stands between tape and foot. */
export interface FrameParts {
  readonly verb: string;
  readonly second: string;
  readonly children: ComponentChildren;
}
/** Draws a page around its parts: tape, menu, offline sign. The app gives it. */
export type Frame = (parts: FrameParts) => VNode;
