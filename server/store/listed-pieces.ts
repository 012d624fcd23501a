import { sql } from "kysely";
import type { PieceRow } from "../../db/schema/database.ts";
import type { MemberId, PieceId } from "../domain/ids.ts";
import type { PieceListed } from "../domain/page-views.ts";
import type { Names } from "../domain/piece-view.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { nameHolder } from "./names.ts";
import { holderFromRow, type KindInJson, kindFromRow, wireInstant } from "./piece-from-row.ts";

type Listed =
  | "id"
  | "kind"
  | "maker"
  | "model_name"
  | "size"
  | "serial"
  | "label_reading"
  | "holder_kind"
  | "holder"
  | "held_since"
  | "member"
  | "set_name"
  | "soiled"
  | "held"
  | "retired_at"
  | "seen_at";
export interface ListedRow extends Pick<PieceRow, Listed>, KindInJson {
  readonly number: string | null;
}

/** The columns of a piece in a list, of `p` joined with its kind as `k`. */
export const LISTED = sql`p.id, p.kind, k.name as kind_name, k.family, k.garment, k.layer, p.maker, p.model_name, p.size,
  p.serial, p.label_reading, p.holder_kind, p.holder, p.held_since, p.member, p.set_name, p.soiled, p.held,
  p.retired_at, p.seen_at, (select t.number from tag t where t.piece = p.id and t.state = 'attached'
    order by t.position, t.number limit 1) as number`;

/** Collects the ids that a list of pieces speaks of. */
export function idsListed(rows: readonly Pick<ListedRow, "holder" | "member">[]): string[] {
  return rows.flatMap(({ holder, member }) => [holder, member]).filter((id) => id !== null);
}

/** Reads a piece of a list. */
export function listedFromRow(row: ListedRow, names: Names): PieceListed {
  const member = row.member as MemberId | null;
  return {
    id: row.id as PieceId,
    kind: kindFromRow(row),
    ...(row.number ? { number: row.number as TagNumber } : {}),
    ...(row.maker ? { maker: row.maker } : {}),
    ...(row.model_name ? { modelName: row.model_name } : {}),
    ...(row.size ? { size: row.size } : {}),
    ...(row.serial ? { serial: row.serial } : {}),
    labelReading: row.label_reading,
    holder: nameHolder(holderFromRow(row), names),
    heldSince: wireInstant(row.held_since),
    ...(member && row.set_name !== null
      ? { assignment: { member: nameHolder({ kind: "member", id: member }, names), set: row.set_name } }
      : {}),
    soiled: row.soiled,
    isHeld: row.held,
    ...(row.retired_at ? { retiredAt: wireInstant(row.retired_at) } : {}),
    ...(row.seen_at ? { seenAt: wireInstant(row.seen_at) } : {}),
  };
}
