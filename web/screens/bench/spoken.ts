import { verdictHead } from "../../look/verdict-phrases.ts";
import type { Words } from "../../look/words.ts";
import { answerWords } from "./answer-words.ts";
import type { BenchEvent, BenchRun } from "./bench-run.ts";
import { labelLines, pieceName } from "./describe-piece.ts";
import { checkOnBench } from "./fit-panel.tsx";
import { modeSays, modeVerb } from "./mode.ts";

import { reasonsOf } from "./ready-words.ts";
import { whereItGoes } from "./reassemble-words.ts";
import { straysSay } from "./side.ts";
import { sideThatCounts } from "./strays.tsx";

/** Says what a screen reader hears of an event: the verdict first, then the pieces, then the reasons. */
export function spoken(event: BenchEvent, run: BenchRun, say: Words): { text: string; isStop: boolean } {
  const said = (text: string, isStop = false) => ({ text, isStop });
  switch (event.kind) {
    case "confirm":
      return said(
        run.mode.kind === "reassemble" ? `${modeVerb(run.mode, say)}. ${modeSays(run.mode, say)}` : "",
      );
    case "mode chosen":
      return said(`${modeVerb(run.mode, say)}. ${modeSays(run.mode, say)}`);
    case "written":
      return said(`${say.writtenSay} ${event.says}.`);
    case "refused":
      return said(refusalText(event, say), true);
    case "fault":
      return said(`${say.notWritten} ${event.says}`, true);
    case "scanned":
      return said(scannedText(event, run, say), run.shown.what === "fit" && isStopped(run));
    case "list read":
      return said(listText(run, say));
    case "clear":
      return said(say.trayEmpty);
    default:
      return said("");
  }
}

/** Where the piece goes that was scanned last, once the record was read. */
function listText({ reassembly, shown }: BenchRun, say: Words): string {
  const { list, plan, lying } = reassembly ?? {};
  const last = lying?.at(-1);
  if (!list || !plan || !last || shown.what !== "nothing") return "";
  return whereItGoes(list, plan, last.piece, say) ?? "";
}

function isStopped(run: BenchRun): boolean {
  if (run.shown.what !== "fit") return false;
  const verdict = checkOnBench(run.shown.shell, run.shown.layer)?.verdict;
  return verdict !== "match" && verdict !== "accepted";
}

function refusalText(event: Extract<BenchEvent, { kind: "refused" }>, say: Words): string {
  const reasons = event.reasons.map(({ what, why, next }) =>
    [what, why, next && `${say.next} ${next}`].filter(Boolean).join(" "),
  );
  return [event.verb, ...reasons].join(" ");
}

function scannedText(event: Extract<BenchEvent, { kind: "scanned" }>, run: BenchRun, say: Words): string {
  const { answer } = event;
  if (answer.kind === "place" || answer.kind === "member" || answer.kind === "action") {
    return `${modeVerb(run.mode, say)}. ${modeSays(run.mode, say)}`;
  }
  const piece = "piece" in answer ? answer.piece : undefined;
  if (piece && run.mode.kind === "reassemble" && run.shown.what === "nothing") {
    const { list, plan } = run.reassembly ?? {};
    return (list && plan && whereItGoes(list, plan, piece.id, say)) ?? `${pieceName(piece, say)}.`;
  }
  if (!piece) return answerWords(answer, say)?.what ?? "";
  if (run.shown.what === "already here") return `${pieceName(piece, say)} ${say.isAlreadyHere}`;
  if (run.shown.what === "fit") {
    const check = checkOnBench(run.shown.shell, run.shown.layer);
    return check ? `${verdictHead(check.verdict, say)}. ${pieceName(piece, say)}` : pieceName(piece, say);
  }
  const ready = piece.ready.isReady
    ? `${say.ready}.`
    : `${say.notReady}. ${reasonsOf(piece.ready.reasons, piece, say).join(" ")}`;
  const where = `${say.withHolder} ${piece.holder.name}.`;
  const stray = straysSay(piece, sideThatCounts(run), Date.now());
  const lines = [`${pieceName(piece, say)}.`, ...labelLines(piece, say), where, ready];
  return [...lines, ...(stray ? [stray] : [])].join(" ");
}
