/**
 * One layer that a complete garment needs, as the code of its kind. `orTogether` names kinds that all together
 * stand in for it, such as a thermal and a moisture layer for a liner.
 */
export interface LayerNeed {
  readonly layerKind: string;
  readonly orTogether?: readonly string[];
}

/**
 * Returns which layers a garment lacks: what its model needs, or its kind where the model does not say.
 * The answer holds the needs that no fitted layer meets, in the order given; a layer meets one need only.
 * An empty answer means complete. Layers beyond the needs (a winter liner) are no fault. Source: facts.md 2.1, 2.3
 * (S5: correct assembly of shell, liner and DRD).
 */
export function missingLayers(
  needs: readonly LayerNeed[],
  fittedKinds: readonly string[],
): readonly LayerNeed[] {
  const left = [...fittedKinds];
  return needs.filter((need) => {
    if (takeAll(left, [need.layerKind])) return false;
    return need.orTogether === undefined || need.orTogether.length === 0 || !takeAll(left, need.orTogether);
  });
}

/** Takes all the kinds out of what is left, or none of them. */
function takeAll(left: string[], kinds: readonly string[]): boolean {
  const rest = [...left];
  for (const kind of kinds) {
    const place = rest.indexOf(kind);
    if (place < 0) return false;
    rest.splice(place, 1);
  }
  left.splice(0, left.length, ...rest);
  return true;
}
