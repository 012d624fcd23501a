import { sql } from "kysely";
import type { PieceId } from "../domain/ids.ts";
import type { Tx } from "./db.ts";
import type { RowChange } from "./write-projections.ts";

/** A place in a shell that two layers of one kind would have at once. */
export class PlaceInShellTaken extends Error {
  readonly layer: PieceId;
  readonly shell: PieceId;
  readonly by: PieceId;
  constructor({ layer, shell, by }: { layer: PieceId; shell: PieceId; by: PieceId }) {
    super(`The place of ${layer} in ${shell} is taken by ${by}.`);
    this.layer = layer;
    this.shell = shell;
    this.by = by;
  }
}

interface OpenFitting {
  readonly layer: PieceId;
  readonly layer_kind: string;
  readonly shell: PieceId;
}

/**
 * Throws PlaceInShellTaken when a fitting that an act opens meets another that stays open. A decision sees the shell
 * as it was at the moment of the act; an install recorded late, or a separation taken back, may reach into a time in
 * which another layer is there. Asks the database only where a fitting opens.
 */
export async function refuseTakenPlaces(tx: Tx, changes: readonly RowChange[]): Promise<void> {
  const opened = changes.flatMap(({ before, after }) => {
    const known = new Set(openIn(before).map(({ shell }) => shell));
    return openIn(after).filter(({ shell }) => !known.has(shell));
  });
  if (opened.length === 0) return;
  const changed = new Set(changes.flatMap(({ after }) => after.piece?.map(({ id }) => id) ?? []));
  const { rows } = await sql<OpenFitting>`select layer, layer_kind, shell from fitting
    where shell = any(${opened.map(({ shell }) => shell)}::uuid[]) and to_at is null`.execute(tx);
  const others = rows.filter(({ layer }) => !changed.has(layer));
  const own = changes.flatMap(({ after }) => openIn(after));
  for (const { layer, layer_kind, shell } of opened) {
    const taken = [...others, ...own].find(
      (other) => other.layer !== layer && other.shell === shell && other.layer_kind === layer_kind,
    );
    if (taken) throw new PlaceInShellTaken({ layer, shell, by: taken.layer });
  }
}

function openIn(projection: RowChange["after"]): OpenFitting[] {
  const rows = projection.fitting?.filter(({ to_at }) => to_at === null) ?? [];
  return rows as unknown as OpenFitting[];
}
