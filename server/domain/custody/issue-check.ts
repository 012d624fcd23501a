import { type BenchState, fittingAt } from "../bench/bench-state.ts";
import { checkFit, isLayer, isShell, layerNeeds } from "../bench/rulebook.ts";
import type { PieceId } from "../ids.ts";
import {
  checkSet,
  type FittedCheck,
  type SetCheck,
  type SetPiece,
  type SetReason,
} from "../label-check/check-set.ts";
import { type Hold, type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Refusal } from "../refusal.ts";

/** Kinds that a full structural outfit has. What is lacking is only said. Common practice. */
const OUTFIT = ["coat-shell", "pants-shell", "helmet", "hood", "glove-pair", "boot-pair"];

/** Lists the kinds of a full outfit that a set lacks; none for a set without a shell, which is no outfit. */
export function lackingKinds(kinds: readonly string[]): readonly string[] {
  return kinds.some((kind) => kind.endsWith("-shell")) ? OUTFIT.filter((kind) => !kinds.includes(kind)) : [];
}

/** Checks a whole set as an issue would: pieces with all that is fitted in them, every reason at once. */
export function checkWholeSet(bench: BenchState, going: readonly PieceState[]): SetCheck<Hold> {
  const { book, at } = bench;
  const byId = new Map(going.map((state) => [state.id, state]));
  const fitted = going.flatMap((layer) => {
    const fitting = fittingAt(layer, at);
    return fitting ? [{ shell: fitting.shell, layer: layer.id, layerKind: layer.kind }] : [];
  });
  const checks = fitted.flatMap(({ shell, layer }): FittedCheck[] => {
    const [outer, inner] = [byId.get(shell), byId.get(layer)];
    const check = outer && inner && checkFit(outer, inner, book);
    return check ? [{ shell, layer, check }] : [];
  });
  return checkSet<Hold>({
    pieces: going.map((state) => asSetPiece(bench, state)),
    checks,
    fitted,
    outfit: going.some((state) => isShell(state, book)) ? OUTFIT : [],
    labelsNotRead: book.settings["labels not read"],
  });
}

function asSetPiece({ book, at }: BenchState, state: PieceState): SetPiece<Hold> {
  const fitting = fittingAt(state, at);
  return {
    pieceId: state.id,
    kind: state.kind,
    labelReading: state.reading,
    holds: standingHolds(state),
    isSoiled: state.soiled,
    isRetired: state.retiredAt !== undefined,
    isLayer: isLayer(state, book),
    ...(isShell(state, book) ? { needs: layerNeeds(state, book) } : {}),
    ...(fitting ? { fittedIn: fitting.shell } : {}),
  };
}

/** Refuses an issue with every reason, or lets it pass with the codes of what is only said. */
export function refuseIssue(
  bench: BenchState,
  going: readonly PieceState[],
): { readonly refusals: readonly Refusal[]; readonly notes: readonly string[] } {
  const { stops, notes } = checkWholeSet(bench, going);
  return {
    refusals: stops.flatMap((stop) => asRefusal(stop)),
    notes: [...new Set(notes.map(({ code }) => code))].sort(),
  };
}

function asRefusal(reason: SetReason<Hold>): readonly Refusal[] {
  switch (reason.code) {
    case "on-hold": {
      const { kind, placedAt, placedBy, version, event } = reason.hold;
      const held = { code: "held" as const, subject: reason.piece, hold: kind, since: placedAt };
      return [{ ...held, by: placedBy, version, ...(event ? { event } : {}) }];
    }
    case "soiled":
      return [{ code: "soiled", subject: reason.piece }];
    case "layer-missing":
      return [{ code: "layer-missing", subject: reason.piece, layerKind: reason.need.layerKind }];
    case "labels-differ":
    case "labels-cannot-tell":
      return [labels(reason.piece, reason.layer, reason.check)];
    case "labels-not-read":
      return [
        reason.layer && reason.check
          ? labels(reason.piece, reason.layer, reason.check)
          : { code: "label-not-read", subject: reason.piece },
      ];
    case "fitting-not-checked":
      return [{ code: "label-not-read", subject: reason.layer }];
    // Refused where the move itself is decided: once is enough.
    case "retired":
    case "fitted-elsewhere":
    case "fitted-layer-left-out":
      return [];
    case "labels-accepted":
    case "labels-by-eye":
    case "loose-layer":
    case "outfit-lacks":
      return [];
    default:
      return reason satisfies never;
  }
}

function labels(shell: PieceId, layer: PieceId, check: FittedCheck["check"]): Refusal {
  return { code: "labels", subject: layer, shell, verdict: check.verdict, reasons: check.reasons };
}
