import { type RawBuilder, sql } from "kysely";
import type { MemberId, ModelId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { PiecesFound } from "../domain/page-views.ts";
import { foldTagText, symbolValues } from "../domain/tags/tag-number.ts";
import type { Instant } from "../domain/time.ts";
import type { Db } from "./db.ts";
import { idsListed, LISTED, type ListedRow, listedFromRow } from "./listed-pieces.ts";
import { askNames, namesFromRows } from "./names.ts";

export const PIECE_STATES = [
  "in use",
  "soiled",
  "on hold",
  "retired",
  "in transit",
  "whereabouts unknown",
  "not yet read",
] as const;
/** "perhaps ready" leaves out what cannot be ready to issue; whether the rest is, the domain tells. */
export type PieceStateSought = (typeof PIECE_STATES)[number] | "perhaps ready";

/** What pieces are looked for by; all that is given must hold. */
export interface PiecesSought {
  /** Part of a tag number or serial, a foreign code, a member's number or name, a place's name, a model or a size. */
  readonly text?: string;
  /** Code of a kind. */
  readonly kind?: string;
  /** A place, member, provider or outside party that has them. */
  readonly holder?: Uuid;
  /** A member who has them, or whose use they belong to. */
  readonly member?: MemberId;
  /** A row of the model table, or the name of a model as labels have it. */
  readonly model?: { readonly id: ModelId } | { readonly name: string };
  readonly size?: string;
  readonly state?: PieceStateSought;
  /** Neither scanned nor had in hand since; retired pieces are left out. */
  readonly lastSeenBefore?: Instant;
  /** Only what is at this station, in places within it, or of its members. */
  readonly station?: PlaceId;
  readonly after?: PieceId;
  readonly limit: number;
}

/**
 * Finds pieces, a page at a time in the order of their ids, which is that of their registration; goes on after the
 * last id shown. One question for the pieces and one for the names in them.
 */
export async function findPieces(db: Db, sought: PiecesSought): Promise<PiecesFound> {
  const narrowed = narrowing(conditionsOf(sought), sought.limit + 1);
  const branches = sought.text === undefined ? [narrowed(sql`true`)] : branchesFor(sought.text, narrowed);
  if (branches.length === 0) return { rows: [] };
  const { rows } = await sql<ListedRow>`
    with found as materialized (
      select distinct id from (${sql.join(branches, sql` union all `)}) f order by id limit ${sought.limit + 1})
    select ${LISTED} from found join piece p on p.id = found.id left join kind k on k.code = p.kind order by p.id`.execute(
    db,
  );
  const page = rows.slice(0, sought.limit);
  const names = namesFromRows(await askNames(db, idsListed(page)));
  const last = page.at(-1)?.id;
  return {
    rows: page.map((row) => listedFromRow(row, names)),
    ...(rows.length > sought.limit && last ? { next: last } : {}),
  };
}

function conditionsOf(sought: PiecesSought): RawBuilder<unknown>[] {
  const { kind, holder, member, model, size, state, lastSeenBefore, station, after } = sought;
  return [
    ...(after ? [sql`p.id > ${after}`] : []),
    ...(kind === undefined ? [] : [sql`p.kind = ${kind}`]),
    ...(holder ? [sql`p.holder = ${holder}`] : []),
    ...(member ? [ofMembers(sql`(select ${member}::uuid)`)] : []),
    ...(model === undefined ? [] : [ofModel(model)]),
    ...(size === undefined ? [] : [sql`p.size = ${size}`]),
    ...(state ? [STATES[state]] : []),
    ...(lastSeenBefore === undefined ? [] : [notSeenSince(new Date(lastSeenBefore))]),
    ...(station ? [atStation(station)] : []),
  ];
}

const STATES: Readonly<Record<PieceStateSought, RawBuilder<unknown>>> = {
  "in use": sql`p.retired_at is null`,
  soiled: sql`p.soiled`,
  "on hold": sql`p.held`,
  retired: sql`p.retired_at is not null`,
  "in transit": sql`p.holder_kind = 'in transit'`,
  "whereabouts unknown": sql`p.holder_kind = 'whereabouts unknown'`,
  "not yet read": sql`p.label_reading = 'not yet read'`,
  "perhaps ready": sql`p.holder_kind = 'place' and p.fitted_in is null and not p.soiled and not p.held
    and p.retired_at is null`,
};

function ofModel(model: NonNullable<PiecesSought["model"]>): RawBuilder<unknown> {
  return "id" in model ? sql`p.model = ${model.id}` : sql`lower(p.model_name) = lower(${model.name})`;
}

function ofMembers(members: RawBuilder<unknown>): RawBuilder<unknown> {
  return sql`p.id in (select id from piece where member in ${members} union all select id from piece where holder in ${members})`;
}

function notSeenSince(at: Date): RawBuilder<unknown> {
  return sql`p.retired_at is null and (p.seen_at is null or p.seen_at < ${at})
    and not exists (select from scan s where s.subject = p.id and s.at >= ${at})`;
}

function atStation(station: PlaceId): RawBuilder<unknown> {
  const places = sql`(with recursive down as (
    select ${station}::uuid as id union select c.id from down join place c on c.within = down.id) select id from down)`;
  const members = sql`(select id from member where station = ${station})`;
  return sql`p.id in (select id from piece where holder in ${places} union all select id from piece where holder in ${members}
    union all select id from piece where member in ${members})`;
}

/** Makes a question for one way in which pieces are found, with all that is narrowed beside it, a page long. */
type Narrowed = (condition: RawBuilder<unknown>) => RawBuilder<unknown>;
function narrowing(conditions: readonly RawBuilder<unknown>[], length: number): Narrowed {
  return (condition) =>
    sql`(select p.id from piece p where ${sql.join([condition, ...conditions], sql` and `)} order by p.id limit ${length})`;
}

/** Shorter parts are in too many texts for an index to help, and tell nobody apart. */
const SHORTEST_PART = 3;
/** From so many serials on, the pieces with the part are so common that going through them in order finds a page first. */
const COMMON = 3000;

/**
 * The ways in which a text can hold of a piece, each a question of its own with its own index: an "or" over all of them
 * would have none. What may name many pieces at once (a place, a kind) is asked one name at a time, a page of each.
 * None for a text of blanks.
 */
function branchesFor(text: string, narrowed: Narrowed): RawBuilder<unknown>[] {
  const said = text.trim();
  if (said === "") return [];
  const exact = [
    sql`p.id in (select f.piece from foreign_code f where f.code = ${said})`,
    sql`p.member in (select m.id from member m where m.number = ${said})`,
    sql`p.holder in (select m.id from member m where m.number = ${said})`,
    sql`lower(p.model_name) = lower(${said})`,
    sql`p.size = ${said}`,
  ];
  return [
    ...exact.map(narrowed),
    ...tagBranch(said, narrowed),
    ...(said.length < SHORTEST_PART ? [narrowed(sql`p.serial = ${said}`)] : partBranches(said, narrowed)),
  ];
}

function tagBranch(said: string, narrowed: Narrowed): RawBuilder<unknown>[] {
  const symbols = foldTagText(said);
  if (symbols.length < SHORTEST_PART || symbolValues(symbols).includes(undefined)) return [];
  const number = sql`t.number like ${`%${symbols}%`}`;
  return [narrowed(sql`p.id in (select t.piece from tag t where ${number} and t.piece is not null)`)];
}

function partBranches(said: string, narrowed: Narrowed): RawBuilder<unknown>[] {
  const like = `%${said.replaceAll(/[\\%_]/g, (symbol) => `\\${symbol}`)}%`;
  const people = sql`(select q.id from person q where q.name ilike ${like})`;
  // How common a part is, the statistics of a column of serials cannot tell: it is counted, up to where it matters.
  const rare = sql`(select s.id from piece s where s.serial ilike ${like} limit ${COMMON})`;
  const isCommon = sql`(select count(*) from ${rare} c) = ${COMMON}`;
  const each = (names: RawBuilder<unknown>, column: RawBuilder<unknown>) =>
    sql`(select found.id from (${names}) n cross join lateral ${narrowed(sql`${column} = n.name`)} found)`;
  return [
    narrowed(sql`p.id in ${rare} and not ${isCommon}`),
    narrowed(sql`p.serial ilike ${like} and ${isCommon}`),
    narrowed(sql`p.member in ${people}`),
    narrowed(sql`p.holder in ${people}`),
    each(
      sql`select id as name from named where name ilike ${like} and kind in ('place', 'provider', 'outside')`,
      sql`p.holder`,
    ),
    each(sql`select code as name from kind where name ilike ${like}`, sql`p.kind`),
  ];
}
