import type { ScanEvent } from "./scan-event.ts";
import { emptyQueue, type QueueInput, stepQueue } from "./scan-queue.ts";

export interface ScanLineParts<Answer> {
  /** Asks the server. A rejection becomes an answer by `failed`; it never breaks the line. */
  readonly ask: (scan: ScanEvent) => Promise<Answer>;
  readonly failed: (scan: ScanEvent, cause: unknown) => Answer;
  /** Called once a scan, in the order of scanning; "hold" keeps all after it until they are released. */
  readonly apply: (scan: ScanEvent, answer: Answer, isLast: boolean) => "hold" | undefined;
  readonly refuse: (scan: ScanEvent) => void;
}
export interface ScanLine {
  take(scan: ScanEvent): void;
  /** Scans that have no answer on screen yet. */
  waiting(): number;
  /** Takes what waited since an answer held the line, in order. */
  release(): void;
}

/** Runs the scan queue against a server: scans go in at any pace, answers come out in order. */
export function openScanLine<Answer>(parts: ScanLineParts<Answer>): ScanLine {
  let queue = emptyQueue<Answer>();
  const take = (input: QueueInput<Answer>) => {
    const step = stepQueue(queue, input);
    queue = step.queue;
    for (const [index, effect] of step.effects.entries()) {
      if (effect.kind === "apply") {
        if (parts.apply(effect.scan, effect.answer, effect.isLast) !== "hold") continue;
        const rest = step.effects.slice(index + 1);
        const again = rest.flatMap((later) => (later.kind === "apply" ? [later.scan] : []));
        return take({ kind: "held", again });
      }
      if (effect.kind === "refuse") parts.refuse(effect.scan);
      else void ask(effect.seq, effect.scan);
    }
  };
  const ask = async (seq: number, scan: ScanEvent) => {
    const answer = await parts.ask(scan).catch((cause: unknown) => parts.failed(scan, cause));
    take({ kind: "answered", seq, answer });
  };
  return {
    take: (scan) => take({ kind: "scanned", scan }),
    waiting: () => queue.waiting.length,
    release: () => queue.isHeld && take({ kind: "released" }),
  };
}
