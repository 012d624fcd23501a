/** The hold ribbon: a strap across the thing that is held, sewn down with a box cross at both ends. */
import type { ComponentChildren } from "preact";
import { BoxCross } from "./stitches.tsx";

export type HoldRibbonProps = {
  /** "On hold", or "On hold since today, 10:14.": said in the stop colour and bold. */
  readonly head: string;
  /** Since when, why, who lifts it. */
  readonly children: ComponentChildren;
  /** 32 on a figure, 24 in a page. */
  readonly small?: boolean | undefined;
};

/** Draws the ribbon at the full width of its surface, at least 60 high. */
export function HoldRibbon(props: HoldRibbonProps) {
  const size = props.small ? 30 : 32;
  return (
    <div class="hold-ribbon">
      <span class="hold-ribbon-end">
        <BoxCross size={size} />
      </span>
      <p class="hold-ribbon-words">
        <b class="hold-ribbon-head">{props.head}</b> {props.children}
      </p>
      <span class="hold-ribbon-end only-wide">
        <BoxCross size={size} />
      </span>
    </div>
  );
}
