import { sql } from "kysely";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { Db } from "./db.ts";

/** A piece without a live tag, in the words by which a person knows it. */
export interface UntaggedPiece {
  readonly id: PieceId;
  readonly kind: string;
  readonly label: string;
  readonly holder: string;
  /** A tag was reserved or printed for it and not scanned back yet. */
  readonly waits: boolean;
}
export interface UntaggedAsked {
  readonly place?: Uuid;
  readonly kind?: string;
  /** Pieces that one act registered: a file that was brought in. */
  readonly act?: Uuid;
  readonly limit: number;
}

/**
 * Lists pieces that carry no live tag and are of a kind that is tagged, with place, kind and serial in order. Retired
 * ones are left out.
 */
export async function listUntagged(db: Db, asked: UntaggedAsked): Promise<UntaggedPiece[]> {
  const { place, kind, act, limit } = asked;
  const found = await sql<{
    id: PieceId;
    kind: string;
    words: (string | null)[];
    holder: string | null;
    holder_kind: string;
    waits: boolean;
  }>`
    select p.id, k.name as kind, array[p.maker, p.model_name, p.size, p.serial] as words, p.holder_kind,
      coalesce(pl.name, 'member ' || m.number, pr.name, o.name) as holder,
      exists (select from tag t where t.meant_for = p.id and t.state in ('reserved', 'printed')) as waits
    from piece p join kind k on k.code = p.kind
      left join place pl on p.holder_kind = 'place' and pl.id = p.holder
      left join member m on p.holder_kind = 'member' and m.id = p.holder
      left join provider pr on p.holder_kind = 'provider' and pr.id = p.holder
      left join outside o on p.holder_kind = 'outside' and o.id = p.holder
    where p.retired_at is null and not k.counted
      and not exists (select from tag t where t.piece = p.id and t.state = 'attached')
      ${place ? sql`and p.holder = ${place}::uuid` : sql``}
      ${kind ? sql`and p.kind = ${kind}` : sql``}
      ${act ? sql`and p.id in (select subject from entry where act = ${act}::uuid and subject_kind = 'piece')` : sql``}
    order by holder nulls last, k.name, p.serial, p.id limit ${limit}`.execute(db);
  return found.rows.map(({ id, kind: name, words, holder, holder_kind, waits }) => ({
    ...{ id, kind: name, waits },
    label: words.filter((word) => word !== null).join(" "),
    holder: holder ?? holder_kind,
  }));
}

/** Finds pieces by id, old number or serial, keyed in lower case by the word that was asked. */
export async function findPiecesByWords(
  db: Db,
  words: readonly string[],
): Promise<ReadonlyMap<string, readonly PieceId[]>> {
  const folded = [...new Set(words.map((word) => word.toLowerCase()))];
  const found = await sql<{ word: string; piece: PieceId }>`
    with asked as (select unnest(${folded}::text[]) as word)
    select word, id as piece from asked join piece on id::text = word
    union select word, piece from asked join foreign_code on lower(code) = word
    union select word, id from asked join piece on lower(serial) = word and retired_at is null`.execute(db);
  const grouped = Map.groupBy(found.rows, ({ word }) => word);
  return new Map([...grouped].map(([word, rows]) => [word, rows.map(({ piece }) => piece)]));
}
