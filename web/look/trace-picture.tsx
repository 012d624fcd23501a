/**
 * Where the pieces of a trace were: holders as lanes, pieces as threads, idle time folded. Focus or a pointer lifts one
 * thread and reads it. The list under it says the same to those who do not see it.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { Button } from "./buttons.tsx";
import {
  FOOT,
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
const PAPER = 900;
const ZOOMS = [1, 1.5, 2, 3, 4] as const;

/** Draws the picture at the width it is given; zoomed in it is wider and scrolls. */
export function TracePicture(props: TracePictureProps) {
  const ref = useRef<HTMLElement>(null);
  const [width, setWidth] = useState(WIDE);
  const [zoom, setZoom] = useState(0);
  const [lifted, setLifted] = useState<string>();
  const [open, setOpen] = useState<string>();
  useLayoutEffect(() => {
    const box = ref.current;
    if (box === null) return undefined;
    const read = () => setWidth(Math.max(box.clientWidth, 640));
    read();
    const watch = new ResizeObserver(read);
    watch.observe(box);
    // Paper shows the whole picture on one page, whatever part of it the screen was zoomed to.
    const onPaper = () => {
      setZoom(0);
      setWidth(PAPER);
    };
    window.addEventListener("beforeprint", onPaper);
    window.addEventListener("afterprint", read);
    return () => {
      watch.disconnect();
      window.removeEventListener("beforeprint", onPaper);
      window.removeEventListener("afterprint", read);
    };
  }, []);
  const layout = layoutPicture(props, { width: width * (ZOOMS[zoom] ?? 1), left: 172, open });
  const garments = new Map(props.threads.map(({ key, garment }) => [key, garment]));
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
              onOpen={() => setOpen(garments.get(thread.key))}
            />
          ))}
        </svg>
      </section>
      <Legend />
      <p class="trace-leg" role="status">
        {told?.says ?? words.liftOne}
      </p>
    </div>
  );
}

const STATES = ["was there", "possibly reached", "not reached"] as const;

/** What the threads, knots, ticks and folds mean: told apart by form, not by colour alone. */
function Legend() {
  return (
    <ul class="trace-legend">
      {STATES.map((state) => (
        <li key={state}>
          <svg width="40" height="24" aria-hidden="true">
            <path class={`trace-stay trace-stay-${CLASS[state]}`} d="M0 12H40" />
          </svg>
          {words.legend[state]}
        </li>
      ))}
      <li>
        <svg width="24" height="24" aria-hidden="true">
          <circle class="trace-knot" cx="12" cy="12" r="11" />
          <text class="trace-rank" x="12" y="17" text-anchor="middle">
            1
          </text>
        </svg>
        {words.legend.knot}
      </li>
      <li>
        <svg width="24" height="24" aria-hidden="true">
          <path class="trace-stay trace-stay-not" d="M0 12H24" />
          <path class="trace-tick" d="M12 4V20" />
        </svg>
        {words.legend.cleaning}
      </li>
      <li>
        <svg width="24" height="24" aria-hidden="true">
          <path class="trace-fold-edge" d="M2 0V24M22 0V24" />
        </svg>
        {words.legend.fold}
      </li>
    </ul>
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
          <path class="timeline-tick" d={`M${x} 26V${height - FOOT}`} />
          <text class="timeline-tick-label" x={x} y="16">
            {props.sayTick(at)}
          </text>
        </g>
      ))}
      {layout.folds.map(({ x, width: fold, lengthMs, row }) => (
        <g key={x}>
          <rect class="trace-fold" x={x} y="28" width={fold} height={height - FOOT - 28} />
          <path class="trace-fold-edge" d={`M${x} 28V${height - FOOT}M${x + fold} 28V${height - FOOT}`} />
          <text
            class="trace-fold-length"
            x={x + fold / 2}
            y={height - FOOT + 22 + row * 20}
            text-anchor="middle"
          >
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
  readonly onOpen: () => void;
}) {
  const { thread, dim, told, onLift, onOpen } = props;
  if (thread.legs.length === 0 || told === undefined) return null;
  const { knot } = thread;
  return (
    <a
      class={`trace-thread${dim ? " trace-dim" : ""}`}
      href={told.href}
      aria-label={thread.count > 1 ? words.bundle(thread.count, told.says) : told.says}
      onFocus={() => {
        onLift(thread.key);
        onOpen();
      }}
      onBlur={() => onLift(undefined)}
      onMouseEnter={() => onLift(thread.key)}
      onMouseLeave={() => onLift(undefined)}
    >
      <path class="trace-hand" d={thread.legs.map(({ x0, x1, y }) => `M${x0} ${y}H${x1}`).join("")} />
      {thread.moves.map(({ x, y0, y1, state }) => (
        <path
          key={`${x} ${y0}`}
          class={`trace-stay trace-stay-${CLASS[state]}`}
          d={`M${x - 5} ${y0}C${x + 3} ${y0} ${x - 3} ${y1} ${x + 5} ${y1}`}
        />
      ))}
      {thread.legs.map(({ x0, x1, y, state }) => (
        <path
          key={`${x0} ${y} ${state}`}
          class={`trace-stay trace-stay-${CLASS[state]}`}
          d={`M${x0} ${y}H${Math.max(x1, x0 + 4)}`}
        />
      ))}
      {thread.ticks.map(({ x, y }) => (
        <path key={x} class="trace-tick" d={`M${x} ${y - 4}V${y + 4}`} />
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
