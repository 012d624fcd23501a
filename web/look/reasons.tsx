/** The list of reasons: what was not done, then each reason at once, with its mark, what, why and next. */
import type { ComponentChildren } from "preact";
import { type MarkName, StitchMark } from "./stitches.tsx";

export type Reason = {
  readonly key: string;
  readonly mark: MarkName;
  readonly what: ComponentChildren;
  readonly why?: ComponentChildren | undefined;
  readonly next?: ComponentChildren | undefined;
};

export type ReasonsProps = {
  readonly id?: string | undefined;
  /** "Not issued. Two reasons." */
  readonly head: string;
  readonly nextWord: string;
  readonly reasons: readonly Reason[];
};

/** Draws all reasons together; a live region elsewhere reads them. */
export function Reasons(props: ReasonsProps) {
  return (
    <section class="reasons" id={props.id} tabIndex={-1}>
      <h2 class="reasons-head">{props.head}</h2>
      <ol class="reasons-list">
        {props.reasons.map((reason) => (
          <li class="reason" key={reason.key}>
            <span class="reason-mark">
              <StitchMark mark={reason.mark} width={reason.mark === "hold" ? 24 : 48} />
            </span>
            <div class="reason-words">
              <p class="reason-what">{reason.what}</p>
              {reason.why ? <p>{reason.why}</p> : null}
              {reason.next ? (
                <p>
                  <b>{props.nextWord}</b> {reason.next}
                </p>
              ) : null}
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}
