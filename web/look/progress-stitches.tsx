/** How far long work is: a row of stitches, sewn one after the other, with holes for what is left. Nothing moves by itself. */
const PLACES = 24;
const PITCH = 26;

export type ProgressStitchesProps = {
  /** What is being done: "writing". */
  readonly label: string;
  readonly done: number;
  /** 0 when it cannot be told: then there are holes alone. */
  readonly total: number;
};

/** Draws the row with its words under it. */
export function ProgressStitches(props: ProgressStitchesProps) {
  const { label, done, total } = props;
  const share = total > 0 ? Math.min(done / total, 1) : 0;
  const sewn = Math.floor(share * PLACES);
  const percent = Math.floor(share * 100);
  return (
    <div class="progress-stitches">
      <svg
        viewBox={`0 0 ${PLACES * PITCH} 20`}
        role="progressbar"
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={total > 0 ? percent : undefined}
      >
        <path
          class="stitch-run"
          d={places(sewn)
            .map((x) => `M${x - 7} 10H${x + 7}`)
            .join("")}
        />
        <g class="stitch-holes">
          {places(PLACES)
            .slice(sewn)
            .map((x) => (
              <circle key={x} cx={x} cy="10" r="2.2" />
            ))}
        </g>
      </svg>
      <p class="t-second">{label}</p>
    </div>
  );
}

function places(count: number): readonly number[] {
  return Array.from({ length: count }, (_, at) => (at + 0.5) * PITCH);
}
