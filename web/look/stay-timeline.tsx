/**
 * Where a piece has been: lanes by kind of holder, a stay is a thick thread, a move a thin one, and time without a
 * record hangs down as slack basting. The list under it says the same to those who do not see it.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import {
  LANE_HEIGHT,
  layoutTimeline,
  type PlacedLabel,
  type PlacedLane,
  type TimelineInput,
  type TimelineLayout,
} from "./stay-timeline-layout.ts";
import { BoxCross } from "./stitches.tsx";

export type StayTimelineProps = TimelineInput & {
  /** A sentence: "Where coat liner HJ9V 2939 03KX has been since March 2025; the entries below say the same." */
  readonly name: string;
  /** "Rack C1, now". */
  readonly nowLabel?: string | undefined;
  /** The piece is on hold: a box cross ends the thread. */
  readonly held?: boolean | undefined;
};

const WIDE = 1216;
const PAPER = 900;

/** Draws the timeline at the width it is given. */
export function StayTimeline(props: StayTimelineProps) {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(WIDE);
  useLayoutEffect(() => {
    const box = ref.current;
    if (box === null) return undefined;
    const read = () => setWidth(box.clientWidth || WIDE);
    read();
    const watch = new ResizeObserver(read);
    watch.observe(box);
    // Paper is laid out without asking the page again, so it gets a width of its own and is scaled to fit.
    const onPaper = () => setWidth(PAPER);
    window.addEventListener("beforeprint", onPaper);
    window.addEventListener("afterprint", read);
    return () => {
      watch.disconnect();
      window.removeEventListener("beforeprint", onPaper);
      window.removeEventListener("afterprint", read);
    };
  }, []);
  const narrow = width < 700;
  const layout = layoutTimeline(props, {
    width,
    names: narrow ? 0 : 164,
    after: narrow ? 48 : 142,
    letter: narrow ? 8.4 : 9.3,
  });
  return (
    <div class="timeline" ref={ref}>
      <svg
        class="timeline-picture"
        width={width}
        height={layout.height}
        viewBox={`0 0 ${width} ${layout.height}`}
        role="img"
        aria-label={props.name}
      >
        <Ground layout={layout} narrow={narrow} />
        <Threads layout={layout} />
        <LaneNames lanes={layout.lanes} />
        <Now layout={layout} label={props.nowLabel} held={props.held === true} narrow={narrow} />
      </svg>
    </div>
  );
}

function Ground(props: { readonly layout: TimelineLayout; readonly narrow: boolean }) {
  const { layout } = props;
  const ticks = props.narrow ? layout.ticks.filter((_, at) => at % 3 === 0) : layout.ticks;
  return (
    <g>
      {layout.lanes.map((lane) => (
        <Lane key={lane.key} lane={lane} left={layout.left} right={layout.right} />
      ))}
      {ticks.map((tick) => (
        <g key={`${tick.x}${tick.label}`}>
          <path class="timeline-tick" d={`M${tick.x} 25V${layout.height - 4}`} />
          <text class="timeline-tick-label" x={tick.x} y="14">
            {tick.label}
          </text>
        </g>
      ))}
    </g>
  );
}

function Lane(props: { readonly lane: PlacedLane; readonly left: number; readonly right: number }) {
  const { lane, left, right } = props;
  return (
    <g>
      <rect
        class={lane.unrecorded ? "timeline-unrecorded" : "timeline-lane"}
        x={left}
        y={lane.y}
        width={right - left}
        height={LANE_HEIGHT}
        rx="2"
      />
    </g>
  );
}

/** Names are drawn last: on phones they stand above their lanes, where moves pass. */
function LaneNames(props: { readonly lanes: readonly PlacedLane[] }) {
  return (
    <g>
      {props.lanes.map((lane) => (
        <text class="timeline-lane-name" key={lane.key} x="0" y={lane.nameY}>
          {lane.name}
        </text>
      ))}
    </g>
  );
}

function Threads(props: { readonly layout: TimelineLayout }) {
  const { layout } = props;
  return (
    <g>
      {layout.moves.map((move) => (
        <path class="timeline-move" key={move.key} d={`M${move.x} ${move.y0}V${move.y1}`} />
      ))}
      {layout.gaps.map((gap) => (
        <path class="timeline-gap" key={gap.key} d={gap.path} />
      ))}
      {layout.stays.map((stay) => (
        <path class="timeline-stay" key={stay.key} d={`M${stay.x0} ${stay.y}H${stay.x1}`} />
      ))}
      {layout.stays.map((stay) => (stay.label ? <Label key={stay.key} label={stay.label} /> : null))}
      {layout.gaps.map((gap) => (
        <Label key={gap.key} label={gap.label} />
      ))}
    </g>
  );
}

function Label(props: { readonly label: PlacedLabel }) {
  const { label } = props;
  return (
    <text class="timeline-label" text-anchor={label.anchor} y={label.y}>
      {label.lines.map((line, at) => (
        <tspan key={line} x={label.x} dy={at === 0 ? 0 : 20}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

function Now(props: {
  readonly layout: TimelineLayout;
  readonly label?: string | undefined;
  readonly held: boolean;
  readonly narrow: boolean;
}) {
  const { end } = props.layout;
  if (end === undefined) return null;
  const x = end.x + (props.held ? 44 : 16);
  return (
    <g>
      {props.held ? (
        <g transform={`translate(${end.x + 8} ${end.y - 17})`}>
          <BoxCross size={24} />
        </g>
      ) : null}
      {props.label && !props.narrow ? (
        <text class="timeline-label timeline-now" x={x} y={end.y + 3}>
          {props.label}
        </text>
      ) : null}
    </g>
  );
}
