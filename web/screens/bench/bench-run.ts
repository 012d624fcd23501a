import type { MachineAtCard } from "../../../server/domain/cleaning/machine-view.ts";
import type { WayOut } from "../../../server/domain/custody/late-record.ts";
import type { PieceId } from "../../../server/domain/ids.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { ScanAnswer, ScanVia } from "../../../server/domain/scan-answer.ts";
import { bagCardMeans, isAllFound, type Packer, packerOf } from "./bag-mode.ts";
import { enter, sounding, still } from "./bench-step.ts";
import { scannedForInstall } from "./install-scan.ts";
import { modeAfter } from "./load-mode.ts";
import { type Mode, whereOf } from "./mode.ts";
import { type Card, modeOfCard } from "./mode-of-card.ts";
import { scannedPlace } from "./place-scan.ts";
import {
  type BenchTold,
  benchTold,
  isLayingOut,
  type Reassembly,
  scannedForReassembly,
  startInstalling,
  writtenInReassembly,
} from "./reassemble-run.ts";

/** A piece on the tray, with how it came there. */
export interface TrayPiece {
  readonly piece: PieceView;
  /** With its set: the card of the dryer brought all that was washed together. */
  readonly evidence: "scanned" | "typed" | "with its set";
}

export interface DoneAct {
  readonly act: string;
  readonly says: string;
  readonly at: number;
}

/** What stands in the middle of the screen. */
export type Shown =
  | { readonly what: "nothing" }
  | { readonly what: "answer"; readonly answer: ScanAnswer }
  | { readonly what: "already here"; readonly piece: PieceView }
  | { readonly what: "fit"; readonly shell: PieceView; readonly layer: PieceView }
  | { readonly what: "refused"; readonly verb: string; readonly reasons: readonly RefusalWords[] }
  | { readonly what: "fault"; readonly says: string };

export interface RefusalWords {
  readonly what: string;
  readonly why?: string;
  readonly next?: string;
  readonly isHold: boolean;
  /** Told at the seam already. */
  readonly isLabels?: boolean;
  /** A piece whose record stands against it, with what can be written instead. */
  readonly piece?: string;
  readonly offers?: readonly WayOut[];
}

/** All of a bench's state between scans. Pure: the shell around it sends requests and makes sounds. */
export interface BenchRun {
  readonly mode: Mode;
  readonly tray: readonly TrayPiece[];
  readonly shown: Shown;
  /** Of the install mode: the shell that the next layer goes in. */
  readonly shell?: PieceView;
  /** The cards that set the mode and what it needs: any of them again confirms. */
  readonly cards: readonly string[];
  readonly sending: boolean;
  /** What was looked up last, newest last: one tap turns it into a turn-in. */
  readonly looks: readonly TrayPiece[];
  readonly lastAct?: DoneAct;
  /** What lies there to be put together; kept until it is cleared. */
  readonly reassembly?: Reassembly;
}

export type BenchEvent =
  | { readonly kind: "scanned"; readonly answer: ScanAnswer; readonly via: ScanVia }
  | { readonly kind: "mode chosen"; readonly mode: Mode }
  | { readonly kind: "confirm" }
  | { readonly kind: "there and back" }
  | { readonly kind: "found here" }
  | { readonly kind: "clear" }
  | { readonly kind: "take off"; readonly piece: string }
  | {
      readonly kind: "written";
      readonly act: string;
      readonly says: string;
      readonly at: number;
      /** What runs in the mode's machine from now on; null for nothing. */
      readonly running?: MachineAtCard["running"] | null;
    }
  | { readonly kind: "end load"; readonly outcome: "as programmed" | "aborted" }
  | { readonly kind: "refused"; readonly verb: string; readonly reasons: readonly RefusalWords[] }
  | { readonly kind: "fault"; readonly says: string }
  | { readonly kind: "pack for"; readonly packer: Packer }
  | { readonly kind: "looks to turn-in" }
  | BenchTold
  | { readonly kind: "idle" };

/** What the shell around the reducer is to do. */
export type BenchEffect =
  /** `thereAndBack`: the pieces went there and came back before they are next on record. */
  | { readonly do: "confirm"; readonly thereAndBack?: true }
  | { readonly do: "install"; readonly shell: PieceView; readonly layer: TrayPiece }
  | { readonly do: "attach"; readonly piece: PieceView; readonly number: string; readonly via: ScanVia }
  | {
      readonly do: "end load";
      readonly load: string;
      readonly machine: string;
      readonly outcome: "as programmed" | "aborted";
    }
  | { readonly do: "wipe"; readonly place: string; readonly name: string; readonly via: ScanVia }
  | {
      readonly do: "pack";
      readonly bag: { readonly id: string; readonly name: string };
      readonly packer: Packer;
    }
  | { readonly do: "read list"; readonly pieces: readonly PieceId[] }
  | { readonly do: "read last load"; readonly machine: string }
  | { readonly do: "change person"; readonly badge: string; readonly name: string }
  | { readonly do: "sound"; readonly sound: "stitch" | "knot" | "snap" | "slack" };

export interface BenchStep {
  readonly run: BenchRun;
  readonly effects: readonly BenchEffect[];
}

export const AT_REST: BenchRun = {
  mode: { kind: "look up" },
  tray: [],
  shown: { what: "nothing" },
  cards: [],
  sending: false,
  looks: [],
};

/** Takes one event and gives the next state with what is to be done. A fault or refusal never clears the tray. */
export function stepBench(run: BenchRun, event: BenchEvent): BenchStep {
  switch (event.kind) {
    case "scanned":
      return scanned(run, event.answer, event.via);
    case "mode chosen":
      return still(enter(run, event.mode));
    case "confirm":
      return confirm(run);
    case "there and back":
      return confirm(run, { thereAndBack: true });
    case "found here": {
      const where = whereOf(run.mode);
      return still(where ? enter(run, { kind: "as found", where }) : run);
    }
    case "clear": {
      const { shell: _, reassembly: __, ...rest } = run;
      return still({ ...rest, tray: [], shown: { what: "nothing" } });
    }
    case "take off":
      return still({ ...run, tray: run.tray.filter(({ piece }) => piece.id !== event.piece) });
    case "written":
      return written(run, event);
    case "pack for":
      return packed(run, event.packer);
    case "end load": {
      const { mode } = run;
      if (run.sending || mode.kind !== "load" || !mode.machine.running) return still(run);
      const { running, name } = mode.machine;
      const end = { do: "end load" as const, load: running.load, machine: name, outcome: event.outcome };
      return { run: { ...run, sending: true }, effects: [end] };
    }
    case "refused": {
      const shown: Shown = { what: "refused", verb: event.verb, reasons: event.reasons };
      return sounding({ ...run, sending: false, shown }, "snap");
    }
    case "fault":
      return sounding({ ...run, sending: false, shown: { what: "fault", says: event.says } }, "snap");
    case "looks to turn-in": {
      const turnIn = enter(run, { kind: "turn in", soiled: true });
      return still({ ...turnIn, tray: run.looks, looks: [] });
    }
    case "list read":
    case "laid out":
      return benchTold(run, event);
    case "idle":
      // A mode with a tray never lapses by itself; one without falls back to look up.
      return run.mode.kind === "look up" || run.tray.length > 0 || run.shell || run.reassembly
        ? still(run)
        : sounding(enter(run, { kind: "look up" }), "stitch");
  }
}

/** As many looks as a full set has tags, twice. */
const MOST_LOOKS = 22;

function confirm(run: BenchRun, how: { readonly thereAndBack?: true } = {}): BenchStep {
  if (isLayingOut(run)) return sounding(startInstalling(run), "stitch");
  if (run.sending || run.tray.length === 0) return still(run);
  return { run: { ...run, sending: true }, effects: [{ do: "confirm", ...how }] };
}

function written(run: BenchRun, event: Extract<BenchEvent, { kind: "written" }>): BenchStep {
  const { act, says, at } = event;
  const isBag = run.mode.kind === "pack a bag" || run.mode.kind === "open a bag";
  const mode: Mode = isBag ? { kind: "look up" } : modeAfter(run.mode, event.running);
  const done = { ...run, mode, sending: false, tray: [], lastAct: { act, says, at } };
  if (mode.kind === "reassemble") return writtenInReassembly(done, !run.sending);
  const shown: Shown = run.mode.kind === "install" ? run.shown : { what: "nothing" };
  return sounding({ ...done, shown }, "knot");
}

function scanned(run: BenchRun, answer: ScanAnswer, via: ScanVia): BenchStep {
  const packer = packerOf(run.mode, answer);
  if (packer) return packed(run, packer);
  switch (answer.kind) {
    case "piece":
      return scannedPiece(run, answer, answer.piece, via);
    case "foreign":
      return answer.piece
        ? scannedPiece(run, answer, answer.piece, via)
        : sounding({ ...run, shown: { what: "answer", answer } }, "slack");
    case "place":
    case "member":
    case "action":
      return scannedCard(run, answer, via);
    case "badge":
      return {
        run,
        effects: [{ do: "change person", badge: answer.text, name: answer.account.name }],
      };
    case "unattached-tag":
      if (run.mode.kind === "attach tag" && run.mode.piece && answer.state === "printed") {
        const { piece } = run.mode;
        const attach = { do: "attach" as const, piece, number: answer.number, via };
        return { run: { ...run, sending: true }, effects: [attach] };
      }
      return sounding({ ...run, shown: { what: "answer", answer } }, "slack");
    case "unknown-number":
    case "misread":
    case "nothing":
    case "not-yours":
      return sounding({ ...run, shown: { what: "answer", answer } }, "slack");
  }
}

function scannedPiece(run: BenchRun, answer: ScanAnswer, piece: PieceView, via: ScanVia): BenchStep {
  const evidence = via === "typed" ? ("typed" as const) : ("scanned" as const);
  const { mode } = run;
  if (mode.kind === "look up") {
    const others = run.looks.filter((look) => look.piece.id !== piece.id);
    const looks = [...others, { piece, evidence }].slice(-MOST_LOOKS);
    return sounding({ ...run, looks, shown: { what: "answer", answer } }, "stitch");
  }
  if (mode.kind === "attach tag") {
    return sounding(
      { ...run, mode: { kind: "attach tag", piece }, shown: { what: "answer", answer } },
      "stitch",
    );
  }
  if (mode.kind === "install") return scannedForInstall(run, piece, evidence);
  if (mode.kind === "reassemble") return scannedForReassembly(run, piece, evidence);
  if (run.tray.some((one) => one.piece.id === piece.id)) {
    return sounding({ ...run, shown: { what: "already here", piece } }, "slack");
  }
  const tray = [...run.tray, { piece, evidence }];
  const taken: BenchRun = { ...run, tray, shown: { what: "nothing" } };
  return isAllFound(mode, tray) ? confirm(taken) : sounding(taken, "stitch");
}

/** A bag and who it is for are all that a packing needs: it is written at once. */
function packed(run: BenchRun, packer: Packer): BenchStep {
  if (run.mode.kind !== "pack a bag" || !run.mode.bag || run.sending) return still(run);
  const { id, name } = run.mode.bag;
  return { run: { ...run, sending: true }, effects: [{ do: "pack", bag: { id, name }, packer }] };
}

/** A card sets the mode, or what the mode lacks; the same card again confirms. */
function scannedCard(run: BenchRun, card: Card, via: ScanVia): BenchStep {
  if (card.kind === "action" && card.action === "confirm") return confirm(run);
  if (card.kind === "action" && card.action === "clear") return stepBench(run, { kind: "clear" });
  if (run.cards.includes(card.text) && (run.tray.length > 0 || isLayingOut(run))) return confirm(run);
  const bag = bagCardMeans(run.mode, run.tray.length === 0, card);
  if (bag) return sounding(enter(run, bag, card.text), "stitch");
  const placed = card.kind === "place" ? scannedPlace(run, card, via) : undefined;
  if (placed) return placed;
  const mode = modeOfCard(run.mode, card);
  return sounding(enter(run, mode, card.text), "stitch");
}
