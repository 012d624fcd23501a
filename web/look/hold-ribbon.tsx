/** The hold ribbon: a strap across the thing that is held, sewn down with a box cross at both ends. */
import type { ComponentChildren } from "preact";
import { BoxCross } from "./stitches.tsx";

export type HoldRibbonProps = {
  /** "On hold", or "On hold since today, 10:14.": said in the stop colour and bold. */
  readonly head: string;
  /** Since when, why, who lifts it. */
  readonly children: ComponentChildren;
  /** Across a page: its ends stand at the page's margins. */
  readonly page?: boolean | undefined;
};

/** Draws the ribbon at the full width of its surface, at least 60 high. */
export function HoldRibbon(props: HoldRibbonProps) {
  return (
    <div class={`hold-ribbon${props.page ? " hold-ribbon-page" : ""}`}>
      <span class="hold-ribbon-end">
        <BoxCross size={32} />
      </span>
      <p class="hold-ribbon-words">
        <b class="hold-ribbon-head">{props.head}</b> {props.children}
      </p>
      <span class="hold-ribbon-end only-wide">
        <BoxCross size={32} />
      </span>
    </div>
  );
}
