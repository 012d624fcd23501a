import { readScannedText } from "../../server/domain/tags/scanned-text.ts";

/** One frame shows a misread now and then; the same text in two of five frames was never seen wrong. */
const FRAMES = 5;
const VOTES = 2;
/** A tag that stays in view is reported once; out of view for so long, it may be meant again. */
const QUIET_MS = 1_500;

export interface VoteState {
  /** The last frames, oldest first; a frame without a code has none. */
  readonly frames: readonly (string | undefined)[];
  /** What was reported and when it was last in view. */
  readonly inView: ReadonlyMap<string, number>;
}
export const noVotes: VoteState = { frames: [], inView: new Map() };

/**
 * Counts one frame: its text, or undefined when it shows no code. `isAccepted` says that the text of this frame
 * is to be reported now. A tag's Data Matrix and the link on the same label are one tag.
 */
export function countFrame(
  before: VoteState,
  text: string | undefined,
  time: number,
): { readonly state: VoteState; readonly isAccepted: boolean } {
  const key = text === undefined ? undefined : keyOf(text);
  const frames = [...before.frames, key].slice(-FRAMES);
  const inView = new Map([...before.inView].filter(([, seen]) => time - seen < QUIET_MS));
  if (key === undefined) return { state: { frames, inView }, isAccepted: false };
  const isReported = inView.has(key);
  const isAccepted = !isReported && frames.filter((vote) => vote === key).length >= VOTES;
  if (isReported || isAccepted) inView.set(key, time);
  return { state: { frames, inView }, isAccepted };
}

function keyOf(text: string): string {
  const read = readScannedText(text);
  return read.code === "number" ? `number ${read.number}` : `text ${text}`;
}
