import { sql } from "kysely";
import type { ContaminantRule } from "../domain/contamination/contaminant-rule.ts";
import { rulesInForce } from "../domain/contamination/starting-contaminants.ts";
import type { EventId, MemberId, PieceId, Uuid } from "../domain/ids.ts";
import { POLICY_ID } from "../domain/register/policy.ts";
import { type EntryBody, readEntryBody } from "../ledger/entry-bytes.ts";
import type { Db, Tx } from "./db.ts";

/** Lists the pieces that were at an event, by id. */
export async function piecesOfEvent(db: Db | Tx, event: EventId): Promise<PieceId[]> {
  const rows = await db
    .selectFrom("piece_met")
    .select("piece")
    .where("event", "=", event)
    .orderBy("piece")
    .execute();
  return rows.map(({ piece }) => piece as PieceId);
}

/** Reads what each kind of contaminant asks for today, and which codes the department set itself. */
export async function readRules(
  db: Db | Tx,
): Promise<{ readonly rules: readonly ContaminantRule[]; readonly own: ReadonlySet<string> }> {
  const rows = await db.selectFrom("contaminant").select(["code", "rule"]).orderBy("code").execute();
  const ruled = rows.map(({ rule }) => rule as ContaminantRule);
  return { rules: rulesInForce(ruled), own: new Set(rows.map(({ code }) => code)) };
}

export interface RuledRow {
  readonly version: number;
  readonly at: Date;
  readonly by: Uuid;
  readonly rule: ContaminantRule;
  readonly note: string | null;
}

/** Reads every change of a contaminant's rule, oldest first. */
export async function ruleChanges(db: Db | Tx): Promise<RuledRow[]> {
  const { rows } = await sql<{ version: number; at: Date; by: Uuid; body: string; note: string | null }>`
    select e.version, a.at, a.by, convert_from(e.bytes, 'UTF8') as body,
      (select t.body from entry_text t where t.subject = e.subject and t.version = e.version and t.name = 'note') as note
    from entry e join act a on a.id = e.act
    where e.subject = ${POLICY_ID} and e.kind = 'ContaminantRuled' order by e.version`.execute(db);
  return rows.flatMap(({ body, ...row }) => {
    const entry = readEntryBody<"policy">(JSON.parse(body) as EntryBody);
    return entry.kind === "ContaminantRuled" ? [{ ...row, rule: entry.rule }] : [];
  });
}

export interface EventRowCounted {
  readonly id: EventId;
  readonly name: string;
  readonly from_at: Date;
  readonly to_at: Date;
  readonly place: string | null;
  readonly where_told: string | null;
  readonly incident: string | null;
  readonly kinds: readonly string[];
  readonly version: number;
  readonly members: number;
  readonly pieces: number;
  readonly held: number;
}

/** Lists events, newest first, or reads one; with how many were there and how many pieces are on hold for it. */
export async function eventsCounted(db: Db | Tx, only?: EventId): Promise<EventRowCounted[]> {
  const { rows } = await sql<EventRowCounted>`
    select c.id, c.name, c.from_at, c.to_at, c.place, c.where_told, c.incident, c.kinds, c.version,
      (select count(*)::int from event_member m where m.event = c.id) as members,
      (select count(*)::int from piece_met m where m.event = c.id) as pieces,
      (select count(*)::int from hold h where h.event = c.id and h.lifted_at is null) as held
    from contamination_event c where ${only ? sql`c.id = ${only}` : sql`true`}
    order by c.from_at desc, c.id desc limit 500`.execute(db);
  return rows;
}

export interface MemberOfEventRow {
  readonly id: MemberId;
  readonly number: string;
  readonly name: string | null;
  readonly station: Uuid | null;
  readonly station_name: string | null;
  readonly set_name: string | null;
}

/** Lists the members of an event by number, with what decides who is shown their names. */
export async function membersOfEvent(db: Db | Tx, event: EventId): Promise<MemberOfEventRow[]> {
  const { rows } = await sql<MemberOfEventRow>`
    select m.id, m.number, q.name, m.station, s.name as station_name, e.set_name
    from event_member e join member m on m.id = e.member left join person q on q.id = m.id
      left join place s on s.id = m.station
    where e.event = ${event} order by m.number`.execute(db);
  return rows;
}

/** Lists the pieces of an event with how they are known to have been there and the hold of it that stands. */
export async function metOfEvent(
  db: Db | Tx,
  event: EventId,
): Promise<readonly { readonly piece: PieceId; readonly evidence: string; readonly hold: number | null }[]> {
  const { rows } = await sql<{ piece: PieceId; evidence: string; hold: number | null }>`
    select m.piece, m.evidence, (select min(h.version) from hold h
      where h.piece = m.piece and h.event = m.event and h.lifted_at is null) as hold
    from piece_met m where m.event = ${event} order by m.piece`.execute(db);
  return rows;
}

/** The free text that an event was opened or changed with last. */
export async function noteOfEvent(db: Db | Tx, event: EventId): Promise<string | undefined> {
  const { rows } = await sql<{ body: string | null }>`select body from entry_text
    where subject = ${event} and name = 'note' order by version desc limit 1`.execute(db);
  return rows[0]?.body ?? undefined;
}

export interface HeldThenRow {
  readonly member: MemberId;
  readonly piece: PieceId;
  readonly set_name: string | null;
}

/** Lists the pieces that members held at some moment of an interval, with the set that each belongs to. */
export async function heldDuring(
  db: Db | Tx,
  members: readonly MemberId[],
  from: Date,
  to: Date,
): Promise<HeldThenRow[]> {
  const { rows } = await sql<HeldThenRow>`
    select distinct s.holder as member, p.id as piece, case when p.member = s.holder then p.set_name end as set_name
    from stay s join piece p on p.id = s.piece
    where s.holder = any(${members}::uuid[]) and s.from_at <= ${to} and (s.to_at is null or s.to_at > ${from})
    order by 1, 3, 2`.execute(db);
  return rows;
}

/** Lists the events that a member is on the list of, newest first. */
export async function eventsOfMember(
  db: Db | Tx,
  member: MemberId,
): Promise<
  readonly (Omit<EventRowCounted, "members" | "pieces" | "held"> & { readonly set_name: string | null })[]
> {
  const { rows } = await sql<EventRowCounted & { set_name: string | null }>`
    select c.*, m.set_name from event_member m join contamination_event c on c.id = m.event
    where m.member = ${member} order by c.from_at desc limit 100`.execute(db);
  return rows;
}
