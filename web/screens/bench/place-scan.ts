import type { ScanVia } from "../../../server/domain/scan-answer.ts";
import type { BenchRun, BenchStep, TrayPiece } from "./bench-run.ts";
import { enter, sounding, still } from "./bench-step.ts";
import { machineCardMeans } from "./load-mode.ts";
import type { Card } from "./mode-of-card.ts";
import { isLayingOut } from "./reassemble-run.ts";

/**
 * A place that was wiped is written at once; a machine's card puts in, starts and ends its loads. While gear is laid
 * out to be reassembled it lays out what the machine's last load took out.
 */
export function scannedPlace(
  run: BenchRun,
  card: Card & { kind: "place" },
  via: ScanVia,
): BenchStep | undefined {
  const { id: place, name } = card.place;
  if (run.mode.kind === "wiped") {
    return { run: { ...run, sending: true }, effects: [{ do: "wipe", place, name, via }] };
  }
  if (isLayingOut(run) && card.machine) {
    return { run, effects: [{ do: "read last load", machine: card.machine.id }] };
  }
  const means = machineCardMeans(run.mode, run.tray.length === 0, card.machine);
  if (!means) return undefined;
  const entered = enter(run, means.mode, card.text);
  if (means.does === "end") {
    const end = { do: "end load", load: means.load, machine: name, outcome: "as programmed" } as const;
    return run.sending ? still(run) : { run: { ...entered, sending: true }, effects: [end] };
  }
  const brought = means.brings.map((piece): TrayPiece => ({ piece, evidence: "with its set" }));
  return sounding({ ...entered, tray: [...entered.tray, ...brought] }, "stitch");
}
