/**
 * A coat or pants, looked at from inside: shell, liner in it, DRD on top. Fitted, the layers lie nested and a stitch
 * joins them; when they differ the liner slides out and a dotted ghost stays; a missing layer is a ghost alone.
 */
import { useId } from "preact/hooks";
import { ClothPatterns, clothIds } from "./cloth.tsx";
import { crossesAlong, snappedAlong } from "./edge-stitches.ts";
import { DRD_PATH, type GarmentOutlines, type GarmentShape, garmentOutlines } from "./garment-shapes.ts";
import type { VerdictName } from "./verdict-names.ts";

/** here: scanned or recorded in it; missing: its place is empty; absent: this garment has no such layer, or it is not spoken of. */
export type LayerPresence = "here" | "missing" | "absent";

export type LayerName = "shell" | "liner" | "drd";

export type GarmentFigureProps = {
  readonly shape: GarmentShape;
  readonly shell: LayerPresence;
  readonly liner: LayerPresence;
  readonly drd?: LayerPresence | undefined;
  /** What the label check says of the liner in this shell. */
  readonly verdict: VerdictName;
  /** The piece that was scanned: its outline is drawn heavier. */
  readonly inHand?: LayerName | undefined;
  /** A sentence: "Coat: shell and liner, labels match; DRD not scanned." */
  readonly name: string;
  /** A part of the figure's own units to show alone: "x y width height". */
  readonly crop?: string | undefined;
  /** Layers slide together and the stitch is sewn; off for lists and prints. */
  readonly moving?: boolean | undefined;
};

/** Draws the garment as one picture with a sentence as its name. Its width is set by what holds it. */
export function GarmentFigure(props: GarmentFigureProps) {
  const ids = clothIds(useId());
  const lines = garmentOutlines(props.shape);
  return (
    <svg
      class={`garment garment-${props.shape}${props.moving ? " garment-moving" : ""}`}
      viewBox={props.crop ?? `0 0 ${lines.width} ${lines.height}`}
      role="img"
      aria-label={props.name}
    >
      <ClothPatterns ids={ids} />
      <GarmentLayers {...props} lines={lines} weave={ids.weave} quilt={ids.quilt} />
    </svg>
  );
}

export type GarmentLayersProps = Omit<GarmentFigureProps, "name" | "moving" | "crop"> & {
  readonly lines: GarmentOutlines;
  readonly weave: string;
  readonly quilt: string;
};

/** Draws the layers in their order, to be put in a larger drawing. */
export function GarmentLayers(props: GarmentLayersProps) {
  const { lines, verdict, liner } = props;
  const slid = verdict === "differs" && liner === "here" && props.shell === "here";
  return (
    <>
      {props.shell === "here" ? <Shell {...props} /> : null}
      {props.shell === "missing" ? <path class="garment-ghost" d={lines.shell} /> : null}
      {liner === "missing" || slid ? <LinerGhost d={lines.liner} inShell={props.shell === "here"} /> : null}
      {liner === "here" && !slid ? <Liner {...props} slid={false} /> : null}
      {liner === "here" ? <EdgeStitch lines={lines} verdict={verdict} mask={`${props.weave}-sewn`} /> : null}
      {props.drd === "here" ? <Strap inHand={props.inHand === "drd"} /> : null}
      {props.drd === "missing" && liner !== "missing" ? <path class="garment-ghost" d={DRD_PATH} /> : null}
      {slid ? <Liner {...props} slid /> : null}
    </>
  );
}

function Shell(props: GarmentLayersProps) {
  const clip = `${props.weave}-clip`;
  const line = props.inHand === "shell" ? "garment-shell-line garment-in-hand" : "garment-shell-line";
  return (
    <g>
      <clipPath id={clip}>
        <path d={props.lines.shell} />
      </clipPath>
      <path d={props.lines.shell} fill={`url(#${props.weave})`} />
      <g clip-path={`url(#${clip})`}>
        <path class="garment-trim-edge" d={props.lines.trim} />
        <path class="garment-trim" d={props.lines.trim} />
        {props.shape === "pants" ? <path class="garment-inner" d="M60 48H200" /> : null}
      </g>
      <path class={line} d={props.lines.shell} />
    </g>
  );
}

function LinerGhost(props: { readonly d: string; readonly inShell: boolean }) {
  return (
    <g>
      {props.inShell ? <path class="garment-hole" d={props.d} /> : null}
      <path class="garment-ghost" d={props.d} />
    </g>
  );
}

function Liner(props: GarmentLayersProps & { readonly slid: boolean }) {
  const line = props.inHand === "liner" ? "garment-liner-line garment-in-hand" : "garment-liner-line";
  const { cx } = props.lines;
  return (
    <g class={props.slid ? "garment-liner-slid" : "garment-liner-in"}>
      <g transform={props.slid ? `translate(24 40) rotate(5 ${cx} 252)` : undefined}>
        <path d={props.lines.liner} fill={`url(#${props.quilt})`} />
        <path class={line} d={props.lines.liner} />
        {props.slid ? <SmallTag x={props.shape === "coat" ? cx : cx - 62} /> : null}
      </g>
    </g>
  );
}

/** The tag on a layer that came out: it is what has to be scanned. */
function SmallTag(props: { readonly x: number }) {
  return (
    <g transform={`translate(${props.x - 15} 244)`}>
      <rect class="garment-tag" width="30" height="16" rx="1.5" />
      <path class="garment-tag-code" d="M4 3.5H13V12.5H4Z" />
      <path class="garment-tag-lines" d="M17 5H26M17 8.5H23M17 12H25" />
    </g>
  );
}

function EdgeStitch(props: {
  readonly lines: GarmentOutlines;
  readonly verdict: VerdictName;
  readonly mask: string;
}) {
  const { lines, verdict } = props;
  switch (verdict) {
    case "match":
      return <SewnLine class="garment-run" d={lines.stitch} along={lines.stitch} mask={props.mask} />;
    case "accepted":
      return (
        <SewnLine
          class="garment-cross"
          d={crossesAlong(lines.stitchPoints)}
          along={lines.stitch}
          mask={props.mask}
        />
      );
    case "cannot-tell":
      return <SewnLine class="garment-baste" d={lines.stitch} along={lines.stitch} mask={props.mask} />;
    case "differs": {
      const edge = snappedAlong(lines.stitchPoints);
      return (
        <g>
          <path class="garment-stub" d={edge.stubs} />
          <path class="garment-tail" d={edge.tails} />
        </g>
      );
    }
    default:
      return null;
  }
}

/** A stitch that is uncovered along its own line when the figure moves. */
function SewnLine(props: {
  readonly class: string;
  readonly d: string;
  readonly along: string;
  readonly mask: string;
}) {
  return (
    <g>
      <mask id={props.mask} maskUnits="userSpaceOnUse" x="0" y="0" width="460" height="440">
        <path class="garment-sewn" d={props.along} pathLength="1" />
      </mask>
      <path class={props.class} d={props.d} mask={`url(#${props.mask})`} />
    </g>
  );
}

function Strap(props: { readonly inHand: boolean }) {
  return (
    <g>
      <path
        class={props.inHand ? "garment-strap-edge garment-strap-in-hand" : "garment-strap-edge"}
        d={DRD_PATH}
      />
      <path class="garment-strap" d={DRD_PATH} />
      <path class="garment-strap-run" d={DRD_PATH} />
    </g>
  );
}
