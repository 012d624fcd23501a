import { inOrderOfHappening } from "../custody/fold-stays.ts";
import type { Evidence } from "../evidence.ts";
import type { PieceId } from "../ids.ts";
import type { LabelVerdict } from "../label-check/label-verdict.ts";
import type { PieceEntry, Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";

/** The time that a layer is fitted in a shell, half-open [from, to); without `to` it lasts. */
export interface Fitting {
  readonly shell: PieceId;
  readonly layerKind: string;
  readonly from: Instant;
  readonly to?: Instant;
  readonly verdict: LabelVerdict;
  readonly evidence: Evidence;
  readonly fromVersion: number;
  readonly toVersion?: number;
}

/** Why the entries of one layer do not make one line of fittings. */
export type FittingFault =
  | { readonly code: "already-fitted"; readonly version: number; readonly shell: PieceId }
  | { readonly code: "not-fitted-there"; readonly version: number; readonly shell: PieceId };

/**
 * Folds a layer's entries into its fittings, ordered by time and then by version. Corrected entries must be out.
 * A layer found fitted elsewhere ends the fitting on record at that moment; an ordinary install does not.
 */
export function foldFittings(entries: readonly Versioned<PieceEntry>[]): readonly Fitting[] | FittingFault {
  const fittings: Fitting[] = [];
  let open: Fitting | undefined;
  for (const { version, entry } of inOrderOfHappening(entries)) {
    if (entry.kind === "LayerInstalled" || entry.kind === "LayerFoundFitted") {
      const isSame = open?.shell === entry.shell;
      if (isSame && entry.kind === "LayerFoundFitted") continue;
      if (open && entry.kind === "LayerInstalled")
        return { code: "already-fitted", version, shell: open.shell };
      if (open) fittings.push({ ...open, to: entry.at, toVersion: version });
      const { shell, layerKind, verdict, evidence } = entry;
      open = { shell, layerKind, verdict, evidence, from: entry.at, fromVersion: version };
    } else if (entry.kind === "LayerSeparated") {
      if (open?.shell !== entry.shell) return { code: "not-fitted-there", version, shell: entry.shell };
      fittings.push({ ...open, to: entry.at, toVersion: version });
      open = undefined;
    }
  }
  if (open) fittings.push(open);
  return fittings;
}
