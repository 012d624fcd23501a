import type { PieceId } from "../ids.ts";
import type { Pair } from "./bench-list.ts";

/** One thing to do with hands and scanner: take a layer out of a shell, or put it in. */
export interface ExchangeStep extends Pair {
  readonly do: "separate" | "install";
}

/**
 * Lists the fewest separations and installs after which every layer is where it is wanted. `now` and `wanted` hold at
 * most one layer a shell and one shell a layer. Each layer in a wrong shell comes out once and goes in once, and
 * nothing else is touched, so no list is shorter. A circle is opened at its first shell and then passed on, so that
 * never more than two of its layers lie loose; a chain that begins at an empty shell needs one.
 */
export function untangle(now: readonly Pair[], wanted: readonly Pair[]): readonly ExchangeStep[] {
  const shellOf = new Map(now.map(({ shell, layer }) => [layer, shell]));
  const layerIn = new Map(now.map(({ shell, layer }) => [shell, layer]));
  const wantedIn = new Map(wanted.map(({ shell, layer }) => [shell, layer]));
  const open = new Set(
    wanted.filter(({ shell, layer }) => layerIn.get(shell) !== layer).map(({ shell }) => shell),
  );
  const goesOn = new Set(wanted.map(({ layer }) => layer));
  const steps: ExchangeStep[] = [];
  const takeOut = (shell: PieceId) => {
    const layer = layerIn.get(shell);
    if (!layer) return;
    steps.push({ do: "separate", shell, layer });
    layerIn.delete(shell);
    shellOf.delete(layer);
  };
  /** Fills one shell, then the shell that this left empty, and so on. */
  const fillFrom = (first: PieceId) => {
    let shell: PieceId | undefined = first;
    while (shell && open.has(shell)) {
      const layer = wantedIn.get(shell);
      if (!layer) return;
      const from = shellOf.get(layer);
      if (layerIn.has(shell)) takeOut(shell);
      if (from) takeOut(from);
      steps.push({ do: "install", shell, layer });
      open.delete(shell);
      shell = from;
    }
  };
  const isEnd = (shell: PieceId) => {
    const inside = layerIn.get(shell);
    return inside === undefined || !goesOn.has(inside);
  };
  const inOrder = wanted.map(({ shell }) => shell);
  for (const shell of inOrder) if (open.has(shell) && isEnd(shell)) fillFrom(shell);
  // What is open still lies in circles.
  for (const shell of inOrder) if (open.has(shell)) fillFrom(shell);
  return steps;
}
