/** Notices: waiting, empty, fault, offline, unknown. A stitch says which, the bold words what, the rest what next. */
import type { ComponentChildren } from "preact";
import { type MarkName, StitchMark } from "./stitches.tsx";

export type NoticeKind = "waiting" | "empty" | "fault" | "offline" | "unknown" | "hold" | "done";

const MARK_OF: Record<NoticeKind, MarkName> = {
  waiting: "none",
  empty: "none",
  fault: "differs",
  offline: "loose",
  unknown: "cannot-tell",
  hold: "hold",
  done: "match",
};

export type NoticeProps = {
  readonly kind: NoticeKind;
  readonly head: ComponentChildren;
  readonly children?: ComponentChildren | undefined;
  /** How it is spoken: polite by default, assertive for a stop, not at all where a live region says it already. */
  readonly live?: "polite" | "assertive" | "off" | undefined;
  /** Buttons that do what the notice proposes. */
  readonly actions?: ComponentChildren | undefined;
};

/** Draws a notice between two ink rules. */
export function Notice(props: NoticeProps) {
  return (
    <div class={`notice notice-${props.kind}`} aria-live={props.live ?? "polite"}>
      <span class="notice-mark">
        <StitchMark mark={MARK_OF[props.kind]} width={props.kind === "hold" ? 32 : 90} />
      </span>
      <div class="notice-words">
        <p>
          <b class="notice-head">{props.head}</b> {props.children}
        </p>
        {props.actions ? <div class="notice-actions">{props.actions}</div> : null}
      </div>
    </div>
  );
}
