/**
 * One cell of the seam between two layers, drawn for a row of known height: bars when it matches, crosses over a gap,
 * an open seam with snapped thread, slack basting, or needle holes. The middle of the seam is x = 0.
 */
import { cross } from "./stitches.tsx";
import type { VerdictName } from "./verdict-names.ts";

const GAP = 4;
const BOW: Record<VerdictName, number> = {
  match: 0,
  accepted: 8,
  differs: 30,
  "cannot-tell": 9,
  "not-read": 0,
  none: 0,
};
const BAR_PITCH = 14;
const CROSS_PITCH = 26;

export type SeamDrawingProps = { readonly verdict: VerdictName; readonly height: number };

/** Draws the cell 96 wide; what it says stands as hidden text in the same cell. */
export function SeamDrawing(props: SeamDrawingProps) {
  const { verdict, height } = props;
  const left = seamEdge(-1, BOW[verdict], height);
  const right = seamEdge(1, BOW[verdict], height);
  return (
    <svg class="seam-drawing" viewBox={`-48 0 96 ${height}`} width="96" height={height} aria-hidden="true">
      <path class="seam-gap" d={`${left}L${GAP} ${height}${seamEdgeUp(BOW[verdict], height)}Z`} />
      <path class="seam-edge" d={left} />
      <path class="seam-edge" d={right} />
      <SeamStitches verdict={verdict} height={height} />
    </svg>
  );
}

/** Writes one edge from top to foot: straight, or bowed outward by `bow` px at half its height. */
export function seamEdge(side: -1 | 1, bow: number, height: number): string {
  const near = side * GAP;
  const far = side * (GAP + bow);
  if (bow === 0) return `M${near} 0V${height}`;
  const [a, b, c, d] = curveStops(height);
  return `M${near} 0C${near} ${a} ${far} ${b} ${far} ${height / 2}C${far} ${c} ${near} ${d} ${near} ${height}`;
}

/** Writes the right edge from foot to top, to close the gap's surface. */
function seamEdgeUp(bow: number, height: number): string {
  const far = GAP + bow;
  if (bow === 0) return "V0";
  const [a, b, c, d] = curveStops(height);
  return `C${GAP} ${d} ${far} ${c} ${far} ${height / 2}C${far} ${b} ${GAP} ${a} ${GAP} 0`;
}

function curveStops(height: number): readonly [number, number, number, number] {
  return [height * 0.17, height * 0.24, height * 0.76, height * 0.83];
}

/** Spreads stitches of a pitch over a height: at least one, each in the middle of its share. */
export function spread(height: number, pitch: number): readonly number[] {
  const count = Math.max(1, Math.round(height / pitch));
  return Array.from({ length: count }, (_, at) => Math.round((height / count) * (at + 0.5) * 100) / 100);
}

function SeamStitches(props: SeamDrawingProps) {
  const { verdict, height } = props;
  switch (verdict) {
    case "match":
      return <path class="seam-bar" d={bars(spread(height, BAR_PITCH))} />;
    case "accepted":
      return (
        <path
          class="seam-bar"
          d={spread(height, CROSS_PITCH)
            .map((y) => cross(0, y, 14, 8))
            .join("")}
        />
      );
    case "differs":
      return <Snapped height={height} />;
    case "cannot-tell":
      return (
        <path
          class="seam-baste"
          d={[1 / 6, 1 / 2, 5 / 6].map((part, at) => slack(height * part, at % 2 === 1)).join("")}
        />
      );
    default:
      return <SeamHoles height={height} />;
  }
}

function bars(places: readonly number[]): string {
  return places.map((y) => `M-15 ${y}H15`).join("");
}

/** Two stubs a side with limp tails; the last whole stitch above and below stays. */
function Snapped(props: { readonly height: number }) {
  const h = props.height;
  const [a, b, c, d] = [0.3, 0.56, 0.32, 0.58].map((part) => Math.round(h * part * 10) / 10) as [
    number,
    number,
    number,
    number,
  ];
  return (
    <>
      <path class="seam-bar" d={bars([4, h - 4])} />
      <path class="seam-stub" d={`M-36.4 ${a}H-24M-44 ${b}H-32.6M24.4 ${c}H36.4M31.8 ${d}H44`} />
      <path
        class="seam-tail"
        d={
          `M-24 ${a}C-17 ${a} -14 ${a + 3} -14.4 ${a + 11}M-32.6 ${b}C-26 ${b - 1} -23.6 ${b + 1} -25.4 ${b + 11}` +
          `M24.4 ${c}C17 ${c - 1} 15.4 ${c + 3} 16 ${c + 13}M31.8 ${d}C25.6 ${d - 1} 22 ${d + 2} 26.4 ${d + 9}`
        }
      />
    </>
  );
}

function slack(y: number, rising: boolean): string {
  if (rising) return `M-20 ${y + 13}C-9 ${y + 20} -2 ${y + 3} 6 ${y}C11 ${y - 2.4} 16 ${y - 2} 20 ${y}`;
  return `M-20 ${y - 3}C-10 ${y - 13} -3 ${y - 6} 2 ${y + 1}C8 ${y + 10} 12 ${y + 16} 20 ${y + 15}`;
}

function SeamHoles(props: { readonly height: number }) {
  return (
    <g class="seam-holes">
      {[0.25, 0.75].flatMap((part) =>
        [-12, 12].map((x) => <circle key={`${part}${x}`} cx={x} cy={props.height * part} r="2.2" />),
      )}
    </g>
  );
}
