/** Where the threads of a stay timeline run: lanes by kind of holder, time to the right. Pure; time is any number. */
export type TimelineLane = {
  readonly key: string;
  readonly name: string;
  /** The lane without a record: gaps hang down into it. */
  readonly unrecorded?: boolean | undefined;
};

export type TimelineStay = {
  readonly key: string;
  readonly lane: string;
  readonly from: number;
  /** Absent while it lasts. */
  readonly to?: number | undefined;
  readonly label?: string | undefined;
};

export type TimelineTick = { readonly at: number; readonly label: string };

export type TimelineInput = {
  readonly lanes: readonly TimelineLane[];
  /** In order of time; a stay in an unrecorded lane is a gap and its label its length in words. */
  readonly stays: readonly TimelineStay[];
  readonly ticks: readonly TimelineTick[];
  readonly start: number;
  readonly now: number;
};

/** Sizes in px: of 1216 at 1280, of 358 on phones. */
export type TimelineFrame = {
  readonly width: number;
  /** Room for lane names at the left; 0 puts each name above its lane. */
  readonly names: number;
  /** Room for the word of now at the right. */
  readonly after: number;
  /** Width of one letter of a label, on average. */
  readonly letter: number;
};

export type PlacedLabel = {
  readonly x: number;
  readonly y: number;
  readonly lines: readonly string[];
  readonly anchor: "start" | "end";
};
export type PlacedLane = TimelineLane & {
  readonly y: number;
  readonly nameY: number;
  readonly threadY: number;
};
export type PlacedStay = {
  readonly key: string;
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly label?: PlacedLabel | undefined;
};
export type PlacedMove = {
  readonly key: string;
  readonly x: number;
  readonly y0: number;
  readonly y1: number;
};
export type PlacedGap = { readonly key: string; readonly path: string; readonly label: PlacedLabel };

export type TimelineLayout = {
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly lanes: readonly PlacedLane[];
  readonly stays: readonly PlacedStay[];
  readonly moves: readonly PlacedMove[];
  readonly gaps: readonly PlacedGap[];
  readonly ticks: readonly { readonly x: number; readonly label: string }[];
  /** Where the last thread stands now, when the piece is somewhere. */
  readonly end: { readonly x: number; readonly y: number } | undefined;
};

export const LANE_HEIGHT = 46;
const LANE_PITCH = 52;
const TICKS_HEIGHT = 34;
const NAME_HEIGHT = 22;
const INSET = 12;
const LEAST_STAY = 4;
const THREAD_UNDER_LABEL = 29;
const THREAD_ALONE = 23;

/** Lays a timeline out; stays shorter than 4 px are drawn 4 px, labels that would meet another are left to the entries. */
export function layoutTimeline(input: TimelineInput, frame: TimelineFrame): TimelineLayout {
  const left = frame.names;
  const right = frame.width - frame.after;
  const labelled = new Set(input.stays.filter((stay) => stay.label).map((stay) => stay.lane));
  const lanes = placeLanes(input.lanes, labelled, frame);
  const x = timeScale(input, left + INSET, right - INSET);
  const where = new Map(lanes.map((lane) => [lane.key, lane]));
  const placed = input.stays.flatMap((stay) => placeStay(stay, where.get(stay.lane), x, input.now));
  const solid = placed.filter((stay) => !stay.lane.unrecorded);
  const last = placed.at(-1);
  return {
    height: TICKS_HEIGHT + lanes.length * lanePitch(frame),
    left,
    right,
    lanes,
    stays: withLabels(solid, frame, right),
    moves: placeMoves(placed),
    gaps: placeGaps(placed, frame, right),
    ticks: input.ticks.map((tick) => ({ x: x(tick.at), label: tick.label })),
    end: last && !last.lane.unrecorded && last.open ? { x: last.x1, y: last.lane.threadY } : undefined,
  };
}

function lanePitch(frame: TimelineFrame): number {
  return frame.names > 0 ? LANE_PITCH : LANE_PITCH + NAME_HEIGHT;
}

function placeLanes(
  lanes: readonly TimelineLane[],
  labelled: ReadonlySet<string>,
  frame: TimelineFrame,
): readonly PlacedLane[] {
  const above = frame.names > 0 ? 0 : NAME_HEIGHT;
  return lanes.map((lane, at) => {
    const y = TICKS_HEIGHT + at * lanePitch(frame) + above;
    const nameY = above > 0 ? y - 6 : y + LANE_HEIGHT / 2 + 5;
    return { ...lane, y, nameY, threadY: y + (labelled.has(lane.key) ? THREAD_UNDER_LABEL : THREAD_ALONE) };
  });
}

function timeScale(input: TimelineInput, from: number, to: number): (at: number) => number {
  const span = Math.max(1, input.now - input.start);
  return (at) => round(from + ((to - from) * (Math.min(at, input.now) - input.start)) / span);
}

type Laid = TimelineStay & {
  readonly lane: string;
  readonly x0: number;
  readonly x1: number;
  readonly open: boolean;
};
type LaidStay = Omit<Laid, "lane"> & { readonly lane: PlacedLane };

function placeStay(
  stay: TimelineStay,
  lane: PlacedLane | undefined,
  x: (at: number) => number,
  now: number,
): readonly LaidStay[] {
  if (lane === undefined) return [];
  const x0 = x(stay.from);
  const x1 = Math.max(x0 + LEAST_STAY, x(stay.to ?? now));
  return [{ ...stay, lane, x0, x1, open: stay.to === undefined }];
}

/** A label stands above its thread; where it would leave the lane it stands beside it in two lines, or ends at the edge. */
function withLabels(stays: readonly LaidStay[], frame: TimelineFrame, right: number): readonly PlacedStay[] {
  const takenUntil = new Map<string, number>();
  return stays.map((stay) => {
    const bare = { key: stay.key, x0: stay.x0, x1: stay.x1, y: stay.lane.threadY };
    if (!stay.label) return bare;
    const label = placeLabel(stay, stay.label, frame, right);
    const start = label.anchor === "start" ? label.x : label.x - stay.label.length * frame.letter;
    if (start < (takenUntil.get(stay.lane.key) ?? Number.NEGATIVE_INFINITY)) return bare;
    const widest = Math.max(...label.lines.map((line) => line.length)) * frame.letter;
    takenUntil.set(stay.lane.key, start + widest + 8);
    return { ...bare, label };
  });
}

function placeLabel(stay: LaidStay, text: string, frame: TimelineFrame, right: number): PlacedLabel {
  const above = { x: stay.x0 + 2, y: stay.lane.y + 18, lines: [text], anchor: "start" } as const;
  if (above.x + text.length * frame.letter <= right) return above;
  const lines = twoLines(text);
  const beside = stay.x1 + 12;
  if (lines.length === 2 && beside + Math.max(...lines.map((line) => line.length)) * frame.letter <= right) {
    return { x: beside, y: stay.lane.y + 24, lines, anchor: "start" };
  }
  return { x: right - 6, y: stay.lane.y + 18, lines: [text], anchor: "end" };
}

function twoLines(text: string): readonly string[] {
  const words = text.split(" ");
  if (words.length < 2) return [text];
  const cuts = words
    .slice(1)
    .map((_, at) => [words.slice(0, at + 1).join(" "), words.slice(at + 1).join(" ")]);
  const width = (lines: readonly string[]) => Math.max(...lines.map((line) => line.length));
  return cuts.reduce((best, cut) => (width(cut) < width(best) ? cut : best));
}

function placeMoves(stays: readonly LaidStay[]): readonly PlacedMove[] {
  return stays.flatMap((stay, at) => {
    const before = stays[at - 1];
    if (!before || before.lane.key === stay.lane.key || before.lane.unrecorded || stay.lane.unrecorded)
      return [];
    return [{ key: stay.key, x: stay.x0, y0: before.lane.threadY, y1: stay.lane.threadY }];
  });
}

/** A gap hangs as one slack thread from the end of the stay before it to the begin of the stay after it. */
function placeGaps(stays: readonly LaidStay[], frame: TimelineFrame, right: number): readonly PlacedGap[] {
  return stays.flatMap((gap, at) => {
    if (!gap.lane.unrecorded) return [];
    const top = (stay: LaidStay | undefined) => stay?.lane.threadY ?? gap.lane.y;
    const foot = gap.lane.y + 26;
    const middle = round((gap.x0 + gap.x1) / 2);
    const [y0, y1] = [top(stays[at - 1]), top(stays[at + 1])];
    const [fall, rise] = [round((foot - y0) * 0.75), round((foot - y1) * 0.75)];
    const path =
      `M${gap.x0} ${y0}C${gap.x0} ${y0 + fall} ${middle - 4} ${foot} ${middle} ${foot}` +
      `C${middle + 4} ${foot} ${gap.x1} ${y1 + rise} ${gap.x1} ${y1}`;
    const text = gap.label ?? "";
    const label = gapLabel(gap, foot, text, frame, right);
    return [{ key: gap.key, path, label }];
  });
}

/** The length of a gap stands beside its foot, at the right or else the left; of a long gap under its middle. */
function gapLabel(
  gap: LaidStay,
  foot: number,
  text: string,
  frame: TimelineFrame,
  right: number,
): PlacedLabel {
  const width = text.length * frame.letter;
  if (gap.x1 + 10 + width <= right) return { x: gap.x1 + 10, y: foot + 5, lines: [text], anchor: "start" };
  if (gap.x0 - 10 - width >= frame.names) {
    return { x: gap.x0 - 10, y: foot + 5, lines: [text], anchor: "end" };
  }
  const x = round(Math.max(frame.names + 6, (gap.x0 + gap.x1 - width) / 2));
  return { x, y: foot + 17, lines: [text], anchor: "start" };
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
