import type { ScanEvent } from "./scan-event.ts";

/** So many look-ups may be on their way at once: two scans a second keep up with a server that needs a second. */
const ASKED_AT_ONCE = 4;
/** More scans than this waiting means that the server is not answering; taking more would only hide it. */
const WAITING_AT_MOST = 60;

interface Asked<Answer> {
  readonly seq: number;
  readonly scan: ScanEvent;
  readonly isAsked: boolean;
  /** Kept until the scans before it have theirs. */
  readonly answer?: Answer;
}
/** The scans that have no applied answer yet, in the order of scanning. */
export interface ScanQueue<Answer> {
  readonly waiting: readonly Asked<Answer>[];
  readonly nextSeq: number;
  /** Nothing is asked while it is not said who scans; what is scanned waits. */
  readonly isHeld: boolean;
}
export type QueueInput<Answer> =
  | { readonly kind: "scanned"; readonly scan: ScanEvent }
  | { readonly kind: "answered"; readonly seq: number; readonly answer: Answer }
  /** `again`: scans whose answers were not applied any more; they stand before those that wait. */
  | { readonly kind: "held"; readonly again: readonly ScanEvent[] }
  | { readonly kind: "released" };
export type QueueEffect<Answer> =
  | { readonly kind: "ask"; readonly seq: number; readonly scan: ScanEvent }
  /** `isLast`: nothing was scanned after it. A superseded answer is in the record; the screen shows the last. */
  | { readonly kind: "apply"; readonly scan: ScanEvent; readonly answer: Answer; readonly isLast: boolean }
  /** Too many wait: this scan was not taken, and the person is told at once. */
  | { readonly kind: "refuse"; readonly scan: ScanEvent };
export interface QueueStep<Answer> {
  readonly queue: ScanQueue<Answer>;
  readonly effects: readonly QueueEffect<Answer>[];
}

export function emptyQueue<Answer>(): ScanQueue<Answer> {
  return { waiting: [], nextSeq: 1, isHeld: false };
}

/**
 * Takes a scan or an answer. Scans are asked in order, several at once; answers are applied in the order of
 * scanning, whatever order they come in. A failed request is an answer too: the caller makes it one.
 * While it is held every scan waits, and is asked anew once it is released: an answer to somebody else is none.
 */
export function stepQueue<Answer>(queue: ScanQueue<Answer>, input: QueueInput<Answer>): QueueStep<Answer> {
  if (input.kind === "held") return { queue: heldQueue(queue, input.again), effects: [] };
  if (input.kind === "released") return settle({ ...queue, isHeld: false });
  if (input.kind === "answered") return settle(withAnswer(queue, input.seq, input.answer));
  if (queue.waiting.length >= WAITING_AT_MOST)
    return { queue, effects: [{ kind: "refuse", scan: input.scan }] };
  const added: Asked<Answer> = { seq: queue.nextSeq, scan: input.scan, isAsked: false };
  return settle({ ...queue, waiting: [...queue.waiting, added], nextSeq: queue.nextSeq + 1 });
}

/** Scans get new numbers, so that answers on their way to the person before find none of them. */
function heldQueue<Answer>(queue: ScanQueue<Answer>, again: readonly ScanEvent[]): ScanQueue<Answer> {
  const scans = [...again, ...queue.waiting.map(({ scan }) => scan)];
  const waiting = scans.map((scan, index) => ({ seq: queue.nextSeq + index, scan, isAsked: false }));
  return { waiting, nextSeq: queue.nextSeq + scans.length, isHeld: true };
}

/** An answer to a scan that has one already, or that is unknown, changes nothing. */
function withAnswer<Answer>(queue: ScanQueue<Answer>, seq: number, answer: Answer): ScanQueue<Answer> {
  const waiting = queue.waiting.map((one) => (one.seq === seq && !hasAnswer(one) ? { ...one, answer } : one));
  return { ...queue, waiting };
}

function settle<Answer>(queue: ScanQueue<Answer>): QueueStep<Answer> {
  if (queue.isHeld) return { queue, effects: [] };
  const firstOpen = queue.waiting.findIndex((one) => !hasAnswer(one));
  const done = firstOpen < 0 ? queue.waiting : queue.waiting.slice(0, firstOpen);
  const rest = queue.waiting.slice(done.length);
  const applied = done.filter(hasAnswer).map(
    ({ seq, scan, answer }): QueueEffect<Answer> => ({
      kind: "apply",
      scan,
      answer,
      isLast: seq === queue.nextSeq - 1,
    }),
  );
  let free = ASKED_AT_ONCE - rest.filter((one) => one.isAsked && !hasAnswer(one)).length;
  const asks: QueueEffect<Answer>[] = [];
  const waiting = rest.map((one) => {
    if (one.isAsked || free <= 0) return one;
    free -= 1;
    asks.push({ kind: "ask", seq: one.seq, scan: one.scan });
    return { ...one, isAsked: true };
  });
  return { queue: { ...queue, waiting }, effects: [...applied, ...asks] };
}

function hasAnswer<Answer>(one: Asked<Answer>): one is Asked<Answer> & { readonly answer: Answer } {
  return "answer" in one;
}
