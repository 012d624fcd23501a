import { type BenchState, fittingAt, layersIn } from "../bench/bench-state.ts";
import type { Rulebook } from "../bench/rulebook.ts";
import {
  mayShareLoad,
  mustGoToSpecialist,
  standingContamination,
} from "../contamination/standing-contamination.ts";
import type { PieceId } from "../ids.ts";
import { type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Refusal } from "../refusal.ts";
import type { MachineState, ProgrammeState } from "./machine.ts";
import { checkProgramme, limitsFrom } from "./programme-limits.ts";

/** What a load is about to run in, and with what. */
export interface LoadSetting {
  readonly machine: MachineState;
  readonly programme: ProgrammeState;
}

/**
 * Checks pieces against what must not go in one load of one machine; gives every reason. Washing is stricter than
 * drying: layers are washed apart from their shells, shells apart from liners, and each as its maker lets it be
 * (facts.md 1.5). Gear kept as evidence goes in neither (facts.md 3.2, a hold must block wash: common practice).
 */
export function checkLoad(
  bench: BenchState,
  pieces: readonly PieceState[],
  setting: LoadSetting,
): readonly Refusal[] {
  const isWash = setting.programme.how !== undefined;
  return [
    ...pieces.flatMap((piece) => evidenceOf(piece)),
    ...(isWash ? fittedTogether(bench, pieces) : leftBehind(bench, pieces)),
    ...(isWash ? mixed(pieces, bench.book, setting) : []),
    ...(isWash ? contaminated(pieces, bench.book, setting) : []),
    ...pieces.flatMap((piece) => notSoCleaned(piece, bench.book, setting)),
    ...overFull(pieces, bench.book, setting.machine),
    ...overLimits(bench.book, setting),
  ];
}

/** Gives the hold as evidence that keeps a piece from any cleaning. */
export function evidenceOf(piece: PieceState): readonly Refusal[] {
  return standingHolds(piece)
    .filter(({ kind }) => kind === "evidence")
    .map(({ placedAt, placedBy, version }) => ({
      ...{ code: "held" as const, subject: piece.id, hold: "evidence" as const },
      ...{ since: placedAt, by: placedBy, version },
    }));
}

/** Gives the layers that are on record inside a shell, be it that the shell was handled or the layer. */
export function fittedTogether(bench: BenchState, pieces: readonly PieceState[]): readonly Refusal[] {
  const fitted = new Map<PieceId, PieceId>();
  for (const piece of pieces) {
    for (const layer of layersIn(bench, piece.id)) fitted.set(layer.id, piece.id);
    const fitting = fittingAt(piece, bench.at);
    if (fitting) fitted.set(piece.id, fitting.shell);
  }
  return [...fitted].map(([subject, shell]) => ({ code: "washed-apart", subject, shell }));
}

/** A layer can be dried in its shell; it is not dried while its shell stays behind. */
function leftBehind(bench: BenchState, pieces: readonly PieceState[]): readonly Refusal[] {
  const going = new Set(pieces.map(({ id }) => id));
  return pieces.flatMap((piece): Refusal[] => {
    const fitting = fittingAt(piece, bench.at);
    if (!fitting || going.has(fitting.shell)) return [];
    return [{ code: "left-inside", subject: piece.id, shell: fitting.shell }];
  });
}

function mixed(pieces: readonly PieceState[], book: Rulebook, { machine }: LoadSetting): readonly Refusal[] {
  const layers = pieces.map((piece) => book.kinds.get(piece.kind)?.layer);
  const shells = layers.filter((layer) => layer === "shell").length;
  // A DRD is washed with shells, in a mesh bag, where its maker lets it be. Source: facts.md 1.5 [S35].
  const liners = layers.filter((layer) => layer !== undefined && layer !== "shell" && layer !== "drd").length;
  return shells > 0 && liners > 0 ? [{ code: "shells-and-liners", subject: machine.id, shells, liners }] : [];
}

function notSoCleaned(
  piece: PieceState,
  book: Rulebook,
  { machine, programme }: LoadSetting,
): readonly Refusal[] {
  const kind = book.kinds.get(piece.kind);
  const wash = piece.model === undefined ? undefined : book.washOfModel.get(piece.model);
  const isMachine = machine.what !== "by hand";
  // Aluminised shells are neither washed nor dried by machine. Source: facts.md 1.5, 2008 edition [S9].
  if (!wash && isMachine && kind?.family === "proximity" && kind.layer === "shell") {
    return [{ code: "not-so-cleaned", subject: piece.id, why: "proximity shell" }];
  }
  if (programme.how === undefined || !wash) return [];
  if (wash === "not at all" || (wash === "by hand" && isMachine)) {
    return [{ code: "not-so-cleaned", subject: piece.id, why: wash }];
  }
  return [];
}

/** What met a contaminant that a specialist must clean, or that must not be washed with what was not there. */
function contaminated(
  pieces: readonly PieceState[],
  book: Rulebook,
  { programme }: LoadSetting,
): readonly Refusal[] {
  return pieces.flatMap((piece) => {
    const specialist = programme.how === "specialised cleaning" ? [] : mustGoToSpecialist(piece, book);
    if (standingContamination(piece, book).length === 0) return [];
    const against = pieces.flatMap((other) => ofOwn(piece, mayShareLoad(piece, other, book).because, book));
    return [
      ...reasons("to-a-specialist", piece, specialist),
      ...(specialist.length > 0 ? [] : reasons("shares-no-load", piece, against)),
    ];
  });
}

type Because = ReturnType<typeof mustGoToSpecialist>;

/** Of what stands between two pieces, what the first brought. */
function ofOwn(piece: PieceState, because: Because, book: Rulebook): Because {
  const own = new Set(standingContamination(piece, book).map(({ event }) => event.id));
  return because.filter(({ event }) => own.has(event.id));
}

function reasons(
  code: "to-a-specialist" | "shares-no-load",
  piece: PieceState,
  because: Because,
): readonly Refusal[] {
  const events = [...new Set(because.map(({ event }) => event.id))];
  return events.map((event) => {
    const kinds = because.filter((one) => one.event.id === event).map(({ rule }) => rule.name);
    return { code, subject: piece.id, event, kinds: [...new Set(kinds)].sort() };
  });
}

/** Counts what fills a drum as its makers count: shells and liners. Gloves, hoods and DRDs are not counted. [S84] */
export function garmentsIn(pieces: readonly PieceState[], book: Rulebook): number {
  return pieces.filter((piece) => {
    const kind = book.kinds.get(piece.kind);
    return kind?.garment !== undefined && kind.layer !== "drd";
  }).length;
}

function overFull(
  pieces: readonly PieceState[],
  book: Rulebook,
  { id, mostGarments }: MachineState,
): readonly Refusal[] {
  const garments = garmentsIn(pieces, book);
  if (mostGarments === undefined || garments <= mostGarments) return [];
  return [{ code: "load-too-large", subject: id, garments, most: mostGarments }];
}

function overLimits(book: Rulebook, { machine, programme }: LoadSetting): readonly Refusal[] {
  const { over } = checkProgramme(machine, programme, limitsFrom(book.settings));
  return over.length > 0
    ? [{ code: "over-limits", subject: machine.id, programme: programme.name, over }]
    : [];
}
