/** Verdicts in words and stitches: large at the head of a comparison, small under a piece on the tray. */
import { StitchMark } from "./stitches.tsx";
import { isStop, type VerdictName } from "./verdict-names.ts";

export type VerdictHeadProps = {
  readonly verdict: VerdictName;
  /** "Differs": the word comes from words.ts. */
  readonly word: string;
  /** One or two sentences beside the word, each on a line of its own where there is room. */
  readonly says?: readonly string[] | undefined;
};

/** Draws the large verdict: stitch, word, what it means. It is the head of the main part. */
export function VerdictHead(props: VerdictHeadProps) {
  return (
    <div class={`verdict-head${isStop(props.verdict) ? " verdict-stop" : ""}`}>
      <span class="verdict-head-mark">
        <StitchMark mark={props.verdict} width={112} />
      </span>
      <h2 class="verdict-head-word">{props.word}</h2>
      {props.says ? (
        <p class="verdict-head-says">
          {props.says.map((line) => (
            <span key={line}>{line} </span>
          ))}
        </p>
      ) : null}
    </div>
  );
}

export type VerdictLineProps = {
  readonly verdict: VerdictName;
  /** "labels match", or "shell, liner and DRD match". */
  readonly word: string;
  readonly align?: "left" | "right" | undefined;
};

/** Draws a verdict as one line: stitch, then word. */
export function VerdictLine(props: VerdictLineProps) {
  const dress = `verdict-line${isStop(props.verdict) ? " verdict-stop" : ""}`;
  return (
    <span class={`${dress}${props.align === "right" ? " verdict-line-right" : ""}`}>
      <StitchMark mark={props.verdict} />
      <span>{props.word}</span>
    </span>
  );
}
