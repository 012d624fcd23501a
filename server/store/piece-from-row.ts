import type { KindRow, PieceRow } from "../../db/schema/database.ts";
import type { Holder } from "../domain/custody/holder.ts";
import type { ModelId, PieceId } from "../domain/ids.ts";
import type { HoldView, KindBrief, Named, Names, PieceBrief, WireInstant } from "../domain/piece-view.ts";
import type { MakersLabel } from "../domain/pieces/label.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { MadeOn } from "../domain/time.ts";
import { nameHolder } from "./names.ts";

/** A row as `row_to_json` writes it: instants are text. */
export type InJson<Row> = {
  readonly [Column in keyof Row]: Row[Column] extends Date
    ? string
    : Row[Column] extends Date | null
      ? string | null
      : Row[Column];
};
export type PieceInJson = InJson<PieceRow>;

/** Writes an instant of a JSON row, whatever zone the session is in, as the wire has it. */
export function wireInstant(text: string | Date): WireInstant {
  return new Date(text).toISOString();
}

/** Reads the maker's label out of a piece's row: a field without a value is not in it. */
export function labelFromRow(row: PieceInJson): MakersLabel {
  const fields = {
    maker: row.maker,
    modelName: row.model_name,
    size: row.size,
    pattern: row.pattern,
    linerCode: row.liner_code,
    serial: row.serial,
    lot: row.lot,
    cutNumber: row.cut_number,
    madeOn: row.made_on as MadeOn | null,
    materials: row.materials,
  };
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

/** Reads who has custody out of a row's two columns. */
export function holderFromRow(row: { holder_kind: string; holder: string | null }): Holder {
  return (
    row.holder === null ? { kind: row.holder_kind } : { kind: row.holder_kind, id: row.holder }
  ) as Holder;
}

/** The columns of a piece's kind as a query joins them; null for a kind that nobody described. */
export interface KindInJson {
  readonly kind_name: KindRow["name"] | null;
  readonly family: KindRow["family"] | null;
  readonly garment: KindRow["garment"];
  readonly layer: KindRow["layer"];
}

/** Reads the kind of a piece; one that nobody described is told by its code. */
export function kindFromRow(row: KindInJson & { readonly kind: string }): KindBrief {
  return {
    code: row.kind,
    name: row.kind_name ?? row.kind,
    family: row.family ?? "other",
    ...(row.garment ? { garment: row.garment } : {}),
    ...(row.layer ? { layer: row.layer } : {}),
  };
}

/** Reads a piece as it is shown in a few words. */
export function briefFromRow(
  row: PieceInJson & KindInJson,
  known: {
    readonly names: Names;
    readonly number?: TagNumber;
    readonly holds: readonly HoldView[];
  },
): PieceBrief {
  return {
    id: row.id as PieceId,
    version: row.version,
    kind: kindFromRow(row),
    ...(known.number ? { number: known.number } : {}),
    label: labelFromRow(row),
    labelReading: row.label_reading,
    ...(row.model ? { model: row.model as ModelId } : {}),
    holder: nameHolder(holderFromRow(row), known.names),
    heldSince: wireInstant(row.held_since),
    soiled: row.soiled,
    ...(row.soiled_since ? { soiledSince: wireInstant(row.soiled_since) } : {}),
    ...(row.wet ? { wet: true as const } : {}),
    washes: row.washes,
    ...(row.retired_at ? { retiredAt: wireInstant(row.retired_at) } : {}),
    holds: known.holds,
  };
}

/** Names a piece by its kind and a live tag's number. */
export function nameOfBrief({ id, kind, number }: PieceBrief): Named {
  return { kind: "piece", id, name: kind.name, ...(number ? { detail: number } : {}) };
}
