/**
 * The garment on the cutting table with its layers named around it: leaders at 1280 × 800; where there is less room
 * the figure stands small beside a list of the same names.
 */
import { useId } from "preact/hooks";
import { ClothPatterns, clothIds } from "./cloth.tsx";
import { GarmentFigure, type GarmentFigureProps, GarmentLayers, type LayerName } from "./garment.tsx";
import { garmentOutlines } from "./garment-shapes.ts";
import { TagNumber } from "./tag-figure.tsx";
import { VerdictLine } from "./verdict.tsx";
import type { VerdictName } from "./verdict-names.ts";

export type BoardLabel = {
  readonly layer: LayerName | "other";
  readonly name: string;
  readonly number?: string | undefined;
  readonly verdict?: VerdictName | undefined;
  /** The verdict's word, or why there is none: "not scanned". */
  readonly word?: string | undefined;
  /** "this piece", when it is the one that was scanned. */
  readonly thisPiece?: string | undefined;
  readonly href?: string | undefined;
};

export type GarmentBoardProps = GarmentFigureProps & { readonly labels: readonly BoardLabel[] };

type LeaderLine = { readonly d: string; readonly x: number; readonly y: number };

const LEADERS: Record<GarmentFigureProps["shape"], Partial<Record<LayerName, LeaderLine>>> = {
  coat: {
    shell: { d: "M112 92V128L202 218", x: 202, y: 218 },
    drd: { d: "M548 120V162L443 267", x: 443, y: 267 },
    liner: { d: "M100 467H262", x: 262, y: 467 },
  },
  pants: {
    shell: { d: "M112 92V128L204 220H258", x: 258, y: 220 },
    liner: { d: "M100 467H254", x: 254, y: 467 },
  },
};
const PLACE = {
  coat: "translate(103.75 94) scale(0.975)",
  pants: "translate(198 100)",
} as const;

/** Draws the board; the picture has one name, the labels are text beside it. */
export function GarmentBoard(props: GarmentBoardProps) {
  const { labels, ...figure } = props;
  return (
    <div class="board">
      <div class="board-stage">
        <Stage {...figure} labels={labels} />
        <div class="board-small">
          <GarmentFigure {...figure} />
        </div>
        <ul class="board-labels">
          {labels.map((label) => (
            <Label key={label.name} label={label} />
          ))}
        </ul>
      </div>
    </div>
  );
}

function Stage(props: GarmentBoardProps) {
  const ids = clothIds(useId());
  const lines = garmentOutlines(props.shape);
  return (
    <svg
      class={`board-picture garment-svg${props.moving ? " garment-moving" : ""}`}
      viewBox="0 0 608 592"
      role="img"
      aria-label={props.name}
    >
      <ClothPatterns ids={ids} />
      <g transform={PLACE[props.shape]}>
        <GarmentLayers {...props} lines={lines} weave={ids.weave} quilt={ids.quilt} />
      </g>
      {props.labels.map((label) => (
        <Leader key={label.layer} shape={props.shape} layer={label.layer} />
      ))}
    </svg>
  );
}

function Leader(props: { readonly shape: GarmentFigureProps["shape"]; readonly layer: LayerName | "other" }) {
  const line = props.layer === "other" ? undefined : LEADERS[props.shape][props.layer];
  if (line === undefined) return null;
  return (
    <>
      <path class="board-leader" d={line.d} />
      <circle class="board-leader-end" cx={line.x} cy={line.y} r="4.5" />
    </>
  );
}

function Label(props: { readonly label: BoardLabel }) {
  const { label } = props;
  return (
    <li class={`board-label board-label-${label.layer}`}>
      <span class="board-label-name">
        {label.href ? <a href={label.href}>{label.name}</a> : label.name}
        {label.thisPiece ? <span class="board-this">{label.thisPiece}</span> : null}
      </span>
      {label.number ? (
        <span class="board-label-number">
          <TagNumber number={label.number} />
        </span>
      ) : null}
      {label.verdict && label.word ? (
        <span class="board-label-verdict">
          <VerdictLine verdict={label.verdict} word={label.word} />
        </span>
      ) : null}
    </li>
  );
}
