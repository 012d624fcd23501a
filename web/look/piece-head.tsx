/** The head of a piece's page: its kind as title, what its label says, and its tag at the right. */
import type { ComponentChildren } from "preact";
import { TagFigure } from "./tag-figure.tsx";

export type PieceHeadProps = {
  readonly title: string;
  /** One line each: maker, model, size; what it takes, when it was made. */
  readonly lines: readonly ComponentChildren[];
  readonly number?: string | undefined;
  readonly modules?: readonly (readonly boolean[])[] | undefined;
  readonly tagName: string;
};

/** Draws title, lines and tag. */
export function PieceHead(props: PieceHeadProps) {
  return (
    <div class="piece-head">
      <div class="piece-head-words">
        <h2 class="t-title">{props.title}</h2>
        <div class="piece-head-lines">
          {props.lines.map((line, at) => (
            <p key={at}>{line}</p>
          ))}
        </div>
      </div>
      {props.number ? <TagFigure number={props.number} modules={props.modules} name={props.tagName} /> : null}
    </div>
  );
}
