import type { PieceId } from "../../../server/domain/ids.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { BenchList, Pair } from "../../../server/domain/reassemble/bench-list.ts";
import { type FittingPlan, planFittings } from "../../../server/domain/reassemble/plan-fittings.ts";
import type { BenchRun, BenchStep, TrayPiece } from "./bench-run.ts";

/** A piece that lies on the bench, with how it became known that it does. */
export interface LyingPiece {
  readonly piece: PieceId;
  readonly evidence: TrayPiece["evidence"];
}

/** What lies on the bench to be put together, with what the record says of it and which goes in which. */
export interface Reassembly {
  readonly lying: readonly LyingPiece[];
  /** What the server told of them last; pieces that were scanned since are not in it yet. */
  readonly list?: BenchList;
  readonly plan?: FittingPlan;
  /** Pairs that were installed at this bench since the list was read. */
  readonly confirmed: readonly Pair[];
}

const NOTHING: Reassembly = { lying: [], confirmed: [] };

/** In this step a scan only lays a piece out; nothing is written. */
export function isLayingOut({ mode }: BenchRun): boolean {
  return mode.kind === "reassemble" && mode.step === "lay out";
}

/** Takes a scan: laid out, or a shell opened, or a layer tried in the open shell. */
export function scannedForReassembly(
  run: BenchRun,
  piece: PieceView,
  evidence: TrayPiece["evidence"],
): BenchStep {
  const { reassembly = NOTHING } = run;
  const isKnown = reassembly.lying.some((one) => one.piece === piece.id);
  const lying = isKnown ? reassembly.lying : [...reassembly.lying, { piece: piece.id, evidence }];
  const next = { ...run, reassembly: { ...reassembly, lying } };
  const read = isKnown ? [] : [readList(lying)];
  if (isLayingOut(run)) {
    const shown = isKnown ? ({ what: "already here", piece } as const) : ({ what: "nothing" } as const);
    const sound = isKnown ? ("slack" as const) : ("stitch" as const);
    return { run: { ...next, shown }, effects: [{ do: "sound", sound }, ...read] };
  }
  if (piece.kind.layer === "shell") {
    const opened = { ...next, shell: piece, shown: { what: "nothing" } as const };
    return { run: opened, effects: [{ do: "sound", sound: "stitch" }, ...read] };
  }
  const { shell } = run;
  if (!shell) {
    const what = `${piece.kind.name} has no shell to go in.`;
    const reasons = [{ what, next: "scan the shell first, then its liner or DRD.", isHold: false }];
    const shown = { what: "refused", verb: "Not installed.", reasons } as const;
    return { run: { ...next, shown }, effects: [{ do: "sound", sound: "slack" }, ...read] };
  }
  const fit = { what: "fit", shell, layer: piece } as const;
  if (piece.fittedIn?.piece.id === shell.id) {
    const confirmed = [...reassembly.confirmed, { shell: shell.id, layer: piece.id }];
    const held = planned({ ...next.reassembly, confirmed });
    return {
      run: { ...next, reassembly: held, shown: fit },
      effects: [{ do: "sound", sound: "stitch" }, ...read],
    };
  }
  const install = { do: "install" as const, shell, layer: { piece, evidence } };
  return { run: { ...next, sending: true, shown: fit }, effects: [...read, install] };
}

/** What the server told: the record of what lies there, or what a machine's last load took out. */
export type BenchTold =
  | { readonly kind: "list read"; readonly list: BenchList }
  | { readonly kind: "laid out"; readonly pieces: readonly PieceId[] };

/** Takes what the server told. */
export function benchTold(run: BenchRun, told: BenchTold): BenchStep {
  if (told.kind === "laid out") return laidOut(run, told.pieces);
  return { run: listRead(run, told.list), effects: [] };
}

/** Lays out what a load brought, without a scan of each. */
function laidOut(run: BenchRun, pieces: readonly PieceId[]): BenchStep {
  const { reassembly = NOTHING } = run;
  const known = new Set(reassembly.lying.map(({ piece }) => piece));
  const more = pieces.filter((piece) => !known.has(piece));
  const lying = [...reassembly.lying, ...more.map((piece) => ({ piece, evidence: "with its set" as const }))];
  return {
    run: { ...run, reassembly: { ...reassembly, lying }, shown: { what: "nothing" } },
    effects: [{ do: "sound", sound: "stitch" }, readList(lying)],
  };
}

/** Plans anew with what the server told; pairs that were shown stay unless others are better. */
function listRead(run: BenchRun, list: BenchList): BenchRun {
  if (!run.reassembly) return run;
  return { ...run, reassembly: planned({ ...run.reassembly, list }) };
}

/** Goes on from laying out to installing, with everything that lies there. */
export function startInstalling(run: BenchRun): BenchRun {
  return { ...run, mode: { kind: "reassemble", step: "install" }, shown: { what: "nothing" } };
}

/** An act of this mode was written, or one was taken back: what was just fitted stays, and the record is read anew. */
export function writtenInReassembly(run: BenchRun, isTakenBack: boolean): BenchStep {
  const { reassembly = NOTHING, shown } = run;
  const pair = shown.what === "fit" ? [{ shell: shown.shell.id, layer: shown.layer.id }] : [];
  const confirmed = isTakenBack ? [] : [...reassembly.confirmed, ...pair];
  const next = { ...run, reassembly: planned({ ...reassembly, confirmed }) };
  const read = reassembly.lying.length > 0 ? [readList(reassembly.lying)] : [];
  return { run: next, effects: [{ do: "sound", sound: "knot" }, ...read] };
}

function readList(lying: readonly LyingPiece[]): BenchStep["effects"][number] {
  return { do: "read list", pieces: lying.map(({ piece }) => piece) };
}

function planned(reassembly: Reassembly): Reassembly {
  const { list, confirmed, plan } = reassembly;
  if (!list) return reassembly;
  const shown = (plan?.places ?? []).flatMap(({ fittings }) => fittings);
  return { ...reassembly, plan: planFittings(list, confirmed, shown) };
}
