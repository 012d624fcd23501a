/**
 * Stitches as one mark, 56 × 20 at scale 1, and the small upright marks of a trail. A mark stands beside its
 * word and is hidden from ears; where it stands alone it takes a name.
 */
import type { ComponentChildren } from "preact";
import type { VerdictName } from "./verdict-names.ts";

export type MarkName = VerdictName | "loose" | "hold";

export type StitchMarkProps = {
  readonly mark: MarkName;
  /** Width in px; the height follows. 56 beside a word, 72 in a head, 90 in a notice, 112 in a verdict. */
  readonly width?: number | undefined;
  readonly name?: string | undefined;
};

/** Draws the stitch of a verdict, of a hold, or the loose thread of a lost network. */
export function StitchMark(props: StitchMarkProps) {
  if (props.mark === "hold") return <BoxCross size={props.width} name={props.name} />;
  const width = props.width ?? 56;
  return (
    <MarkFrame box="0 0 56 20" width={width} height={(width * 20) / 56} name={props.name}>
      <MarkLines mark={props.mark} />
    </MarkFrame>
  );
}

function MarkLines(props: { readonly mark: Exclude<MarkName, "hold"> }) {
  switch (props.mark) {
    case "match":
      return <path class="stitch-run" d="M4 10H14M23 10H33M42 10H52" />;
    case "accepted":
      return <path class="stitch-cross" d={[14, 28, 42].map((x) => cross(x, 10, 6, 6)).join("")} />;
    case "differs":
      return (
        <>
          <path class="stitch-snap" d="M2.2 9.8H10.2M17 9.8H21M35.4 9.8H39M45.8 9.8H53.8" />
          <path
            class="stitch-tail"
            d="M20.6 9.8C24 10.4 25.6 13.6 24.5 18.8M36.6 9.8C31.6 8.8 30.6 8.6 31.5 15.8"
          />
        </>
      );
    case "cannot-tell":
      return <path class="stitch-baste" d="M2.6 12.4Q15 -3.2 25.4 9.4M30.6 10.6Q41 23.2 53.4 7.6" />;
    case "loose":
      return (
        <>
          <path class="stitch-loose" d="M1.2 10H8.5M13.8 10H21.2M26.2 10H30.5" />
          <path
            class="stitch-loose-end"
            d="M30.5 10C36 11 37 17 41.4 17C46.6 17 45.9 10.4 46.3 7.6C46.8 4.4 48 3.2 50 3"
          />
        </>
      );
    default:
      return <Holes places={[9, 28, 47]} y={10} />;
  }
}

/** Writes the path of one cross at (x, y) that reaches dx and dy from its middle. */
export function cross(x: number, y: number, dx: number, dy: number): string {
  return `M${x - dx} ${y - dy}L${x + dx} ${y + dy}M${x - dx} ${y + dy}L${x + dx} ${y - dy}`;
}

/** Draws needle holes in a row: nothing yet, or shown and not compared. */
export function Holes(props: { readonly places: readonly number[]; readonly y: number }) {
  return (
    <g class="stitch-holes">
      {props.places.map((x) => (
        <circle key={x} cx={x} cy={props.y} r="2.2" />
      ))}
    </g>
  );
}

/** Draws the box cross of a hold: a square sewn down with both diagonals. */
export function BoxCross(props: { readonly size?: number | undefined; readonly name?: string | undefined }) {
  const size = props.size ?? 32;
  return (
    <MarkFrame box="0 0 36 36" width={size + 4} height={size + 4} name={props.name}>
      <path class="stitch-box" d="M2 2H34V34H2ZM2 2L34 34M34 2L2 34" />
    </MarkFrame>
  );
}

export type TrailMarkName = "entry" | "late" | "correction" | "hold" | "gap" | "stop";

/** Draws the mark of a trail entry: whole stitch, hollow stitch (late), darn (correction), box cross, slack thread. */
export function TrailMark(props: { readonly mark: TrailMarkName; readonly small?: boolean | undefined }) {
  if (props.mark === "hold") return <BoxCross size={props.small ? 20 : 24} />;
  if (props.mark === "stop") return <StitchMark mark="differs" width={props.small ? 28 : 36} />;
  const size = props.small ? 20 : 28;
  return (
    <MarkFrame box="0 0 28 32" width={size} height={(size * 32) / 28}>
      <TrailLines mark={props.mark} />
    </MarkFrame>
  );
}

function TrailLines(props: { readonly mark: "entry" | "late" | "correction" | "gap" }) {
  switch (props.mark) {
    case "entry":
      return <path class="stitch-run" d="M14 4V28" />;
    case "late":
      return <rect class="stitch-hollow" x="9.5" y="2.5" width="9" height="27" rx="4.5" />;
    case "correction":
      return <path class="stitch-hollow" d="M6 3V29M14 3V29M22 3V29M1 8.4H27M1 16H27M1 23.6H27" />;
    default:
      return <path class="stitch-baste" d="M15 -0.5C8.4 4.5 9.4 10.5 14 16C19 21.6 20 27 14.6 32.5" />;
  }
}

function MarkFrame(props: {
  readonly box: string;
  readonly width: number;
  readonly height: number;
  readonly name?: string | undefined;
  readonly children: ComponentChildren;
}) {
  const size = { class: "stitch", viewBox: props.box, width: props.width, height: props.height } as const;
  if (props.name === undefined) {
    return (
      <svg {...size} aria-hidden="true">
        {props.children}
      </svg>
    );
  }
  return (
    <svg {...size} role="img" aria-label={props.name}>
      {props.children}
    </svg>
  );
}
