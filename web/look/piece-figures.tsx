/** Line drawings of the pieces that stand alone: helmet, hood, gloves, boots, suspenders; and one layer without its garment. */
import { GarmentFigure } from "./garment.tsx";

export type PieceFigureName =
  | "helmet"
  | "hood"
  | "gloves"
  | "boots"
  | "suspenders"
  | "coat-shell"
  | "coat-liner"
  | "drd"
  | "pants-shell"
  | "pants-liner"
  | "other";

export type PieceFigureProps = { readonly piece: PieceFigureName; readonly name: string };

/** Draws a piece alone, in a box of 144 × 150 whose foot is the ground, or its layer in garment size. */
export function PieceFigure(props: PieceFigureProps) {
  const { piece, name } = props;
  switch (piece) {
    case "coat-shell":
    case "pants-shell":
      return <LayerAlone shape={piece === "coat-shell" ? "coat" : "pants"} layer="shell" name={name} />;
    case "coat-liner":
    case "pants-liner":
      return <LayerAlone shape={piece === "coat-liner" ? "coat" : "pants"} layer="liner" name={name} />;
    case "drd":
      return <LayerAlone shape="coat" layer="drd" name={name} />;
    default:
      return (
        <svg class="piece-figure" viewBox="0 0 144 150" role="img" aria-label={name}>
          <PieceLines piece={piece} />
        </svg>
      );
  }
}

function LayerAlone(props: {
  readonly shape: "coat" | "pants";
  readonly layer: "shell" | "liner" | "drd";
  readonly name: string;
}) {
  const { layer } = props;
  return (
    <GarmentFigure
      shape={props.shape}
      shell={layer === "shell" ? "here" : "absent"}
      liner={layer === "liner" ? "here" : "absent"}
      drd={layer === "drd" ? "here" : "absent"}
      verdict="none"
      crop={layer === "drd" ? "96 20 268 240" : undefined}
      name={props.name}
    />
  );
}

function PieceLines(props: {
  readonly piece: "helmet" | "hood" | "gloves" | "boots" | "suspenders" | "other";
}) {
  switch (props.piece) {
    case "helmet":
      return <Helmet />;
    case "hood":
      return <Hood />;
    case "gloves":
      return <Gloves />;
    case "boots":
      return <Boots />;
    case "suspenders":
      return <Suspenders />;
    default:
      return <Other />;
  }
}

function Helmet() {
  return (
    <>
      <path
        class="piece-edge"
        d="M47.6 126L53 139.6C54.6 143.4 56.4 145.4 60 145.4H76C80 145.4 82.6 142.6 83.6 138.6L86.6 125.6Z"
      />
      <path
        class="piece-edge"
        d="M19.6 111.4C20 95 23 86 32 78C43 69 52 64.4 62 64.4C76 64.4 89 74 95 86C99 93 101 102 104.4 111.4Z"
      />
      <path class="piece-inner" d="M50 111.4C50 90 53 76 64 64.4M77.2 111.4C77 92 74.5 77 69.4 64.4" />
      <path
        class="piece-edge"
        d="M19.6 111.5H104.4C108 112.4 111 114 114 115.6L137.6 128.2C141.6 130.6 140.4 137 135.6 136.2C122 132.6 106 125.6 90 125.4L14.6 126.2C8.6 126 5.4 123.6 3.8 121.8C2.4 120 3.6 118.2 6.4 117Z"
      />
    </>
  );
}

function Hood() {
  return (
    <>
      <path
        class="piece-edge"
        d="M72 15.6C98 15.6 107.6 36 107.6 60C107.6 70 105.6 74 105.6 80C105.6 92 121.4 106 121.4 121C121.4 130 114 137.6 106 138.6C95 140.4 86 142.4 72 142.4C58 142.4 49 140.4 38 138.6C30 137.6 22.6 130 22.6 121C22.6 106 38.4 92 38.4 80C38.4 74 36.4 70 36.4 60C36.4 36 46 15.6 72 15.6Z"
      />
      <path
        class="piece-open"
        d="M72 44.4C86 44.4 92.4 50 92.4 61C92.4 73 84 79.8 72 79.8C60 79.8 51.6 73 51.6 61C51.6 50 58 44.4 72 44.4Z"
      />
      <path class="piece-inner" d="M42.4 86Q56 95.6 72 95.6Q88 95.6 101.6 86" />
    </>
  );
}

function Gloves() {
  return (
    <>
      <g transform="translate(149.5 -4.4) scale(-1 1)">
        <Glove />
      </g>
      <Glove />
    </>
  );
}

function Glove() {
  return (
    <>
      <path
        class="piece-edge"
        d="M26.8 132.8L25 123L0 98C-3.4 94.4 -3.2 89.6 0.6 87C4 84.6 8 85 10.8 87.6L23.6 100L23 86L15.2 61C13.6 55.4 17 51 21.4 50.8C25.6 50.6 28 53 28.8 57L35.6 85.6L33.4 49.4C33 44.4 36 41.2 40 41.2C44 41.2 46.8 44 47 48.4L49.6 86.2L52.2 51C52.4 46.4 55.4 43.6 59 43.6C63 43.6 65.8 46.4 65.6 51L63.4 87L69 65.6C70 61 73 58.6 76.6 59.2C80.6 60 82.4 63.6 81.4 67.6L76.4 90L70.8 144C70.4 147.4 69 149 66 149H33C30 149 28.8 147.6 28.4 144.6Z"
      />
      <path class="piece-inner" d="M26.9 133H72" />
    </>
  );
}

const BOOT =
  "M22.6 36.6H56C58 36.6 58.6 37.6 58.6 39.6L59.4 84C60 98 64 106 70 110C76 113.8 84 115 90 117.4C99 121.4 103.6 130 103.6 138V144C103.6 146.4 102.6 147.4 100.4 147.4H61.4L56.8 143H45L41.4 147.4H20.6C19 147.4 18.6 146.6 18.4 145C17 132 17 122 17.2 112L20 40C20 37.6 20.6 36.6 22.6 36.6Z";

function Boots() {
  return (
    <>
      <path class="piece-edge" d={BOOT} transform="translate(25.3 -7.2)" />
      <path class="piece-edge" d={BOOT} />
      <path class="piece-inner" d="M20 48.4H58.6M19.2 136.4H103.4" />
    </>
  );
}

function Suspenders() {
  return (
    <>
      <path class="piece-strap-edge" d="M40 22C44 60 60 84 104 128M104 22C100 60 84 84 40 128" />
      <path class="piece-strap" d="M40 22C44 60 60 84 104 128M104 22C100 60 84 84 40 128" />
      <path
        class="piece-edge"
        d="M62 74H82V96H62ZM32 10H48V26H32ZM96 10H112V26H96ZM30 124H46V146H30ZM98 124H114V146H98Z"
      />
      <path class="piece-inner" d="M62 74L82 96M82 74L62 96" />
    </>
  );
}

/** A kind that has no drawing of its own: folded cloth with its tag. */
function Other() {
  return (
    <>
      <path
        class="piece-edge"
        d="M24 92C24 88 26 86 30 86H114C118 86 120 88 120 92V142C120 145 118 147 115 147H29C26 147 24 145 24 142Z"
      />
      <path class="piece-inner" d="M24 106H120M24 126H120" />
      <path class="piece-edge" d="M80 112H110V136H80Z" />
      <path class="piece-inner" d="M86 120H104M86 127H98" />
    </>
  );
}
