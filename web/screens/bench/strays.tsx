/** What came in soiled and shows up on the clean side, said where the piece or the tray is shown. */
import { Notice } from "../../look/notice.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import type { BenchRun } from "./bench-run.ts";
import { type BenchSide, sideOfBench, straysSay } from "./side.ts";

/** The side that counts for what is scanned: of the place where it goes, else of this bench. */
export function sideThatCounts({ mode }: Pick<BenchRun, "mode">): BenchSide | undefined {
  if (mode.kind === "load") return undefined;
  const to = "to" in mode && mode.to && "side" in mode.to ? mode.to.side : undefined;
  return to ?? sideOfBench();
}

export function Strays(props: { readonly run: BenchRun; readonly now: number }) {
  const { run, now } = props;
  const { shown } = run;
  const looked = shown.what === "answer" && "piece" in shown.answer ? shown.answer.piece : undefined;
  const pieces = run.tray.length > 0 ? run.tray.map(({ piece }) => piece) : looked ? [looked] : [];
  const says = [...new Set(pieces.flatMap((piece) => straysSay(piece, sideThatCounts(run), now) ?? []))];
  if (says.length === 0) return null;
  return (
    <Notice kind="unknown" head={CLEANING_WORDS.cleanSide} live="off">
      {`${says.join(" ")} ${CLEANING_WORDS.strayedNext}`}
    </Notice>
  );
}
