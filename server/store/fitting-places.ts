import { sql } from "kysely";
import { grownTimes, placesTaken, type TimeInShell } from "../domain/fittings/places-in-shells.ts";
import type { PieceId } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { Instant } from "../domain/time.ts";
import type { Tx } from "./db.ts";
import type { RowChange } from "./write-projections.ts";

/** Places in shells that two layers of one kind would have at once, with every reason. */
export class PlacesInShellsTaken extends Error {
  readonly refusals: readonly Refusal[];
  constructor(refusals: readonly Refusal[]) {
    super("Two layers of one kind would be in one shell at once.");
    this.refusals = refusals;
  }
}

interface FittingRow {
  readonly layer: PieceId;
  readonly layer_kind: string;
  readonly shell: PieceId;
  readonly from_at: Date | string;
  readonly to_at: Date | string | null;
}

/**
 * Throws PlacesInShellsTaken when a fitting that an act begins or lengthens meets another, open or ended. A decision
 * sees the shell as it was at the moment of the act; an install recorded late, or a separation taken back, may reach
 * into a time in which another layer is there. Asks the database only where a fitting grows.
 */
export async function refuseTakenPlaces(tx: Tx, changes: readonly RowChange[]): Promise<void> {
  const grown = changes.flatMap(({ before, after }) => grownTimes(timesIn(before), timesIn(after)));
  if (grown.length === 0) return;
  const changed = new Set(changes.flatMap(({ after }) => after.piece?.map(({ id }) => id) ?? []));
  const { rows } = await sql<FittingRow>`/* prepared: places-in-shells */
    select layer, layer_kind, shell, from_at, to_at from fitting
    where shell = any(${grown.map(({ shell }) => shell)}::uuid[])`.execute(tx);
  const others = rows.filter(({ layer }) => !changed.has(layer)).map(timeFromRow);
  const own = changes.flatMap(({ after }) => timesIn(after));
  const refusals = placesTaken(grown, [...others, ...own]);
  if (refusals.length > 0) throw new PlacesInShellsTaken(refusals);
}

function timesIn(projection: RowChange["after"]): TimeInShell[] {
  return (projection.fitting ?? []).map((row) => timeFromRow(row as unknown as FittingRow));
}

function timeFromRow({ layer, layer_kind, shell, from_at, to_at }: FittingRow): TimeInShell {
  const ends = to_at === null ? {} : { to: new Date(to_at).getTime() as Instant };
  return { layer, layerKind: layer_kind, shell, from: new Date(from_at).getTime() as Instant, ...ends };
}
