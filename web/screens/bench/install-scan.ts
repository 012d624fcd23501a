import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { BenchRun, BenchStep, TrayPiece } from "./bench-run.ts";
import { sounding } from "./bench-step.ts";

/** A shell is laid open; every layer after it is tried in it. Another shell takes its place. */
export function scannedForInstall(
  run: BenchRun,
  piece: PieceView,
  evidence: TrayPiece["evidence"],
): BenchStep {
  if (piece.kind.layer === "shell") {
    const answer: ScanAnswer = { kind: "piece", text: piece.id, piece, tag: tagOf(piece) };
    return sounding({ ...run, shell: piece, shown: { what: "answer", answer } }, "stitch");
  }
  if (!run.shell) {
    const reasons = [
      {
        what: `${piece.kind.name} has no shell to go in.`,
        next: "scan the shell first, then its liner or DRD.",
        isHold: false,
      },
    ];
    return sounding({ ...run, shown: { what: "refused", verb: "Not installed.", reasons } }, "slack");
  }
  const { shell } = run;
  const effect = { do: "install" as const, shell, layer: { piece, evidence } };
  return { run: { ...run, sending: true, shown: { what: "fit", shell, layer: piece } }, effects: [effect] };
}

function tagOf(piece: PieceView): Extract<ScanAnswer, { kind: "piece" }>["tag"] {
  return piece.tags[0] ?? { number: piece.id as never, state: "attached" };
}
