import type { Progress } from "../cases/progress.ts";

const WIDTH = 24;
const EVERY_MS = 100;

/** Writes one line that is written over as work goes on. `end` takes it away. */
export interface ProgressBar {
  readonly show: (progress: Progress) => void;
  readonly end: () => void;
}

/** Draws a bar on a terminal; where nobody looks on, nothing is written. */
export function progressBar(stream: { readonly isTTY?: boolean; write(text: string): unknown }): ProgressBar {
  if (!stream.isTTY) return { show: () => {}, end: () => {} };
  let shownAt = Number.NEGATIVE_INFINITY;
  let isShown = false;
  return {
    show(progress) {
      const now = performance.now();
      if (now - shownAt < EVERY_MS) return;
      shownAt = now;
      isShown = true;
      stream.write(`\r\u001b[K${barLine(progress)}`);
    },
    end() {
      if (isShown) stream.write("\r\u001b[K");
      isShown = false;
    },
  };
}

/** Writes how far work has come as one line. The total is an estimate, so it never says that all is done. */
export function barLine({ phase, done, total }: Progress): string {
  const share = total > 0 ? Math.min(done / total, 0.99) : 0;
  const full = Math.round(share * WIDTH);
  const bar = "#".repeat(full).padEnd(WIDTH, ".");
  const count = (number: number) => number.toLocaleString("en-US");
  return `[${bar}] ${String(Math.floor(share * 100)).padStart(2)} %  ${phase} ${count(done)}${total > done ? ` of about ${count(total)}` : ""}`;
}
