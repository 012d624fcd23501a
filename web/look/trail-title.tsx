/** The head of a trail: title, a lead paragraph that a lay person can read, the tag at the right. */
import type { ComponentChildren } from "preact";

export type TrailTitleProps = {
  readonly title: string;
  readonly children: ComponentChildren;
  readonly tag?: ComponentChildren | undefined;
};

/** Draws title, lead and tag. */
export function TrailTitle(props: TrailTitleProps) {
  return (
    <div class="trail-title">
      <div class="trail-title-words">
        <h2 class="t-title">{props.title}</h2>
        <p class="trail-lead">{props.children}</p>
      </div>
      {props.tag}
    </div>
  );
}
