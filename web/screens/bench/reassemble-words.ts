import type { PieceId } from "../../../server/domain/ids.ts";
import type { Named, PieceBrief } from "../../../server/domain/piece-view.ts";
import type { BenchList } from "../../../server/domain/reassemble/bench-list.ts";
import { type LeftOver, leftOver, type OverReason } from "../../../server/domain/reassemble/left-over.ts";
import type { FittingPlan, PlannedFitting } from "../../../server/domain/reassemble/plan-fittings.ts";
import { verdictWord } from "../../look/verdict-phrases.ts";
import { midSentence, type Words } from "../../look/words.ts";
import { nameFor, pieceName, sayWhen } from "./describe-piece.ts";
import type { Clock } from "./look-up-panel.tsx";

/** One place in a shell, with what goes in it or why nothing does. */
export interface PlaceTold {
  readonly key: string;
  readonly layer?: PieceBrief;
  readonly planned?: PlannedFitting;
  /** The layer's kind, and beside it "its own", "labels match", "installed", or why the place stays empty. */
  readonly kind: string;
  readonly says: string;
}

export interface ShellTold {
  readonly shell: PieceBrief;
  readonly places: readonly PlaceTold[];
  readonly isComplete: boolean;
  readonly isDone: boolean;
}

export interface ReassemblyTold {
  readonly shells: readonly ShellTold[];
  readonly over: readonly { readonly piece: PieceBrief; readonly says: readonly string[] }[];
  readonly help: readonly string[];
}

/** Says a whole plan: each shell with what goes in it, what stays over and why, and what a missing layer would free. */
export function tellReassembly(list: BenchList, plan: FittingPlan, clock: Clock, say: Words): ReassemblyTold {
  const left = leftOver(list, plan);
  const told = { list, plan, left, clock, say };
  const shells = [...new Set(plan.places.flatMap(({ shells: ofKind }) => ofKind))];
  return {
    shells: shells.map((shell) => shellTold(told, shell)).sort((one, other) => order(one) - order(other)),
    over: left.over.map(({ layer, why, ownShell }) => {
      const piece = briefOf(list, layer);
      const own = ownShell
        ? [say.reassemble.ownShellAway(nameOf(told, ownShell), whereIs(told, ownShell))]
        : [];
      return { piece, says: [...own, reasonSays(told, why, "shell")] };
    }),
    help: left.wouldFree.map(({ missing, goesIn, frees }) => {
      const name = nameOf(told, missing);
      const helps =
        goesIn === frees
          ? say.reassemble.completes(name, nameOf(told, frees))
          : say.reassemble.passesOn(name, nameOf(told, goesIn), nameOf(told, frees));
      return `${helps} ${say.cap(whereIs(told, missing))}.`;
    }),
  };
}

/** What still has to be done stands first; the order among the rest is that of the tag numbers. */
function order({ isDone }: ShellTold): number {
  return isDone ? 1 : 0;
}

interface Told {
  readonly list: BenchList;
  readonly plan: FittingPlan;
  readonly left: LeftOver;
  readonly clock: Clock;
  readonly say: Words;
}

function shellTold(told: Told, shell: PieceBrief): ShellTold {
  const { plan, list, say } = told;
  const places = plan.places.flatMap(({ shells, fittings, layerKind }): PlaceTold[] => {
    if (!shells.some(({ id }) => id === shell.id)) return [];
    const planned = fittings.find((fitting) => fitting.shell === shell.id);
    if (!planned) {
      const empty = told.left.empty.find((one) => one.shell === shell.id && one.layerKind === layerKind);
      const own = empty?.own
        ? [say.reassemble.ownLayerAway(nameOf(told, empty.own), whereIs(told, empty.own))]
        : [];
      const why = empty ? [reasonSays(told, empty.why, kindName(list, layerKind))] : [];
      return [{ key: layerKind, kind: say.cap(kindName(list, layerKind)), says: [...own, ...why].join(" ") }];
    }
    const layer = briefOf(list, planned.layer);
    return [{ key: layerKind, layer, planned, kind: layer.kind.name, says: plannedSays(planned, say) }];
  });
  const isDone = places.every(({ planned }) => planned?.by === "in place");
  return { shell, places, isComplete: places.every(({ planned }) => planned !== undefined), isDone };
}

/** Says how a layer comes to go in a shell; a recorded word is told before everything but its own. */
export function plannedSays({ by, verdict }: PlannedFitting, say: Words): string {
  if (by === "matched")
    return verdict === "accepted" ? say.reassemble.by.accepted : say.reassemble.by.matched;
  return say.reassemble.by[by];
}

/** Says where a scanned piece goes, for ears and for the line under the head. Undefined before the record was read. */
export function whereItGoes(
  list: BenchList,
  plan: FittingPlan,
  piece: PieceId,
  say: Words,
): string | undefined {
  const brief = list.pieces.find(({ id }) => id === piece);
  if (!brief) return undefined;
  const pairs = plan.places
    .flatMap(({ fittings }) => fittings)
    .filter((one) => one.layer === piece || one.shell === piece);
  const lines = pairs.map((pair) => {
    const layer = pieceName(briefOf(list, pair.layer), say);
    const shell = midSentence(pieceName(briefOf(list, pair.shell), say));
    return `${layer} ${say.reassemble.goesIn} ${shell}: ${plannedSays(pair, say)}.`;
  });
  return lines.length > 0 ? lines.join(" ") : `${pieceName(brief, say)}: ${say.reassemble.nothingGoes}.`;
}

function reasonSays({ list, say }: Told, why: OverReason, what: string): string {
  switch (why.code) {
    case "nothing-here":
      return say.reassemble.why["nothing-here"](what);
    case "partners-taken":
      return say.reassemble.why["partners-taken"](what);
    case "labels-stop":
      return say.reassemble.why["labels-stop"](
        verdictWord(why.best, say),
        midSentence(pieceName(briefOf(list, why.with), say)),
      );
  }
}

/** Says where a piece may be that does not lie here: in a shell, with its holder, and when it was seen last. */
function whereIs({ list, clock, say }: Told, id: PieceId): string {
  const absent = list.absent.find(({ piece }) => piece.id === id);
  if (!absent) return say.reassemble.withHolder(briefOf(list, id).holder.name);
  const parts = [say.reassemble.withHolder(absent.piece.holder.name)];
  if (absent.fittedIn) parts.unshift(say.reassemble.fittedIn(named(absent.fittedIn)));
  const seen = absent.lastSeen;
  if (seen) {
    const when = sayWhen(seen.at, clock.now, clock.timeZone);
    parts.push(say.reassemble.lastSeen(when, seen.device ?? absent.piece.holder.name));
  }
  const places = absent.loadMatesAt
    .map(({ name }) => name)
    .filter((name) => name !== absent.piece.holder.name);
  if (places.length > 0) parts.push(say.reassemble.washedWith(places));
  return parts.join(", ");
}

function named({ name, detail }: Named): string {
  return midSentence(detail ? `${name} ${detail.replace(/(.{4})(?=.)/g, "$1 ")}` : name);
}

function nameOf({ list }: Told, id: PieceId): string {
  return midSentence(nameFor(list.names, id));
}

function kindName(list: BenchList, layerKind: string): string {
  const known = [...list.pieces, ...list.absent.map(({ piece }) => piece)].find(
    ({ kind }) => kind.code === layerKind,
  );
  return midSentence(known?.kind.name ?? layerKind.replaceAll("-", " ").replace(/\bdrd\b/, "DRD"));
}

/** Gives a piece of the list; what a plan speaks of is in it. */
export function briefOf(list: BenchList, id: PieceId): PieceBrief {
  const found = [...list.pieces, ...list.absent.map(({ piece }) => piece)].find((piece) => piece.id === id);
  if (!found) throw new Error(`Piece ${id} is in a plan and not on the bench.`);
  return found;
}
