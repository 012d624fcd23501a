/**
 * Where the pieces of a trace were: holders as lanes, pieces as threads, idle time folded. Focus or a pointer lifts one
 * thread and reads it. The list under it says the same to those who do not see it.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { Button } from "./buttons.tsx";
import {
  layoutPicture,
  type PictureInput,
  type PictureLayout,
  type PlacedThread,
} from "./trace-picture-layout.ts";
import { TRACING_WORDS } from "./words-tracing.ts";

export type TracePictureProps = PictureInput & {
  /** A sentence that names the picture. */
  readonly name: string;
  /** What is read when the thread of a piece is lifted, and where it leads. */
  readonly told: ReadonlyMap<string, { readonly says: string; readonly href: string }>;
  readonly sayTick: (at: number) => string;
  readonly sayLength: (ms: number) => string;
};

const words = TRACING_WORDS;
const WIDE = 1216;
const ZOOMS = [1, 1.5, 2, 3, 4] as const;

/** Draws the picture at the width it is given; zoomed in it is wider and scrolls. */
export function TracePicture(props: TracePictureProps) {
  const ref = useRef<HTMLElement>(null);
  const [width, setWidth] = useState(WIDE);
  const [zoom, setZoom] = useState(0);
  const [lifted, setLifted] = useState<string>();
  useLayoutEffect(() => {
    const box = ref.current;
    if (box === null) return undefined;
    const read = () => setWidth(Math.max(box.clientWidth, 640));
    read();
    const watch = new ResizeObserver(read);
    watch.observe(box);
    return () => watch.disconnect();
  }, []);
  const layout = layoutPicture(props, { width: width * (ZOOMS[zoom] ?? 1), left: 172 });
  const told = lifted === undefined ? undefined : props.told.get(lifted);
  return (
    <div class="trace-picture">
      <div class="button-row no-print">
        <Button weight="quiet" disabled={zoom === 0} onPress={() => setZoom(Math.max(0, zoom - 1))}>
          {words.zoomOut}
        </Button>
        <Button
          weight="quiet"
          disabled={zoom === ZOOMS.length - 1}
          onPress={() => setZoom(Math.min(ZOOMS.length - 1, zoom + 1))}
        >
          {words.zoomIn}
        </Button>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by a keyboard */}
      <section class="trace-scroll" ref={ref} tabIndex={0} aria-label={props.name}>
        <svg
          class="trace-drawing"
          width={layout.width}
          height={layout.height}
          viewBox={`0 0 ${layout.width} ${layout.height}`}
          aria-hidden={layout.threads.length === 0 ? "true" : undefined}
        >
          <title>{props.name}</title>
          <Ground layout={layout} sayTick={props.sayTick} sayLength={props.sayLength} />
          {layout.threads.map((thread) => (
            <Thread
              key={thread.key}
              thread={thread}
              dim={lifted !== undefined && lifted !== thread.key}
              told={props.told.get(thread.key)}
              onLift={setLifted}
            />
          ))}
        </svg>
      </section>
      <p class="trace-leg" role="status">
        {told?.says ?? words.liftOne}
      </p>
    </div>
  );
}

function Ground(props: {
  readonly layout: PictureLayout;
  readonly sayTick: (at: number) => string;
  readonly sayLength: (ms: number) => string;
}) {
  const { layout } = props;
  const { left, width, height } = layout;
  return (
    <g>
      {layout.lanes.map((lane) => (
        <g key={lane.key}>
          <rect
            class={`trace-lane trace-lane-${lane.edge}`}
            x={left}
            y={lane.y}
            width={width - left - 2}
            height={lane.height}
            rx="2"
          />
          <text class="trace-lane-name" x="0" y={lane.y + 20}>
            {lane.name}
          </text>
          <text class="trace-lane-sort" x="0" y={lane.y + 40}>
            {lane.sort}
          </text>
        </g>
      ))}
      {layout.ticks.map(({ x, at }) => (
        <g key={at}>
          <path class="timeline-tick" d={`M${x} 26V${height - 34}`} />
          <text class="timeline-tick-label" x={x} y="16">
            {props.sayTick(at)}
          </text>
        </g>
      ))}
      {layout.folds.map(({ x, width: fold, lengthMs }) => (
        <g key={x}>
          <rect class="trace-fold" x={x} y="28" width={fold} height={height - 62} />
          <path class="trace-fold-edge" d={`M${x} 28V${height - 34}M${x + fold} 28V${height - 34}`} />
          <text class="trace-fold-length" x={x + fold / 2} y={height - 12} text-anchor="middle">
            {props.sayLength(lengthMs)}
          </text>
        </g>
      ))}
    </g>
  );
}

const CLASS = { "was there": "there", "possibly reached": "reached", "not reached": "not" } as const;

function Thread(props: {
  readonly thread: PlacedThread;
  readonly dim: boolean;
  readonly told: { readonly says: string; readonly href: string } | undefined;
  readonly onLift: (key: string | undefined) => void;
}) {
  const { thread, dim, told, onLift } = props;
  if (thread.legs.length === 0 || told === undefined) return null;
  const { knot } = thread;
  return (
    <a
      class={`trace-thread${dim ? " trace-dim" : ""}`}
      href={told.href}
      aria-label={told.says}
      onFocus={() => onLift(thread.key)}
      onBlur={() => onLift(undefined)}
      onMouseEnter={() => onLift(thread.key)}
      onMouseLeave={() => onLift(undefined)}
    >
      <path class="trace-hand" d={thread.legs.map(({ x0, x1, y }) => `M${x0} ${y}H${x1}`).join("")} />
      {thread.moves.map(({ x, y0, y1 }) => (
        <path key={`${x} ${y0}`} class="trace-move" d={`M${x} ${y0}V${y1}`} />
      ))}
      {thread.legs.map(({ x0, x1, y, state }) => (
        <path
          key={`${x0} ${y} ${state}`}
          class={`trace-stay trace-stay-${CLASS[state]}`}
          d={`M${x0} ${y}H${Math.max(x1, x0 + 4)}`}
        />
      ))}
      {thread.ticks.map(({ x, y }) => (
        <path key={x} class="trace-tick" d={`M${x} ${y - 8}V${y + 8}`} />
      ))}
      {knot ? (
        <g>
          <circle class="trace-knot" cx={knot.x} cy={knot.y} r="11" />
          <text class="trace-rank" x={knot.x} y={knot.y + 5} text-anchor="middle">
            {knot.rank}
          </text>
        </g>
      ) : null}
    </a>
  );
}
