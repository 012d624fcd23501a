import { type ContaminantRule, ruleOf } from "../domain/contamination/contaminant-rule.ts";
import { isNamedTo } from "../domain/contamination/event-names.ts";
import type {
  EventListed,
  EventPage,
  HeldThen,
  MemberAtEventShown,
  PieceAtEvent,
} from "../domain/contamination/event-views.ts";
import { openKinds } from "../domain/contamination/standing-contamination.ts";
import type { Evidence } from "../domain/evidence.ts";
import type { EventId, MemberId, PieceId, Uuid } from "../domain/ids.ts";
import type { Named, Names } from "../domain/piece-view.ts";
import { foldPiece, isFault } from "../domain/pieces/piece-state.ts";
import { listPlaces } from "../store/cards.ts";
import { departmentZone } from "../store/days.ts";
import type { Db, Tx } from "../store/db.ts";
import {
  type EventRowCounted,
  eventsCounted,
  heldDuring,
  type MemberOfEventRow,
  membersOfEvent,
  metOfEvent,
  noteOfEvent,
  readRules,
} from "../store/event-rows.ts";
import { listedByIds } from "../store/holder-pieces.ts";
import { idsListed, listedFromRow } from "../store/listed-pieces.ts";
import { loadEntries } from "../store/load-subjects.ts";
import { askNames, type NameRow, namesFromRows, upsFromRows } from "../store/names.ts";
import { readOnly } from "../store/snapshot.ts";
import { writeEventViewing } from "../store/viewings.ts";
import type { Viewer } from "./viewer.ts";

/** Lists events, newest first; no member is named in it. */
export function listEvents(db: Db): Promise<EventListed[]> {
  return readOnly(db, async (tx) => {
    const [rows, { rules }] = [await eventsCounted(tx), await readRules(tx)];
    const places = namesFromRows(
      await askNames(
        tx,
        rows.flatMap(({ place }) => place ?? []),
      ),
    );
    return rows.map((row) => eventFromRow(row, rules, places));
  });
}

/**
 * Shows one event: who and what was there, where each piece is now, what its kinds ask for. Names of members are shown
 * to those who need them (isNamedTo), and a look at the list is written for each member on it.
 */
export async function readEventPage(
  db: Db,
  id: EventId,
  viewer: Viewer,
  nowMs: number,
): Promise<EventPage | undefined> {
  const page = await readOnly(db, async (tx): Promise<EventPage | undefined> => {
    const row = (await eventsCounted(tx, id))[0];
    if (!row) return undefined;
    const { rules } = await readRules(tx);
    const places = namesFromRows(await askNames(tx, row.place ? [row.place] : []));
    const note = await noteOfEvent(tx, id);
    const members = await membersOfEvent(tx, id);
    return {
      event: eventFromRow(row, rules, places),
      version: row.version,
      timeZone: await departmentZone(tx),
      ...(note ? { note } : {}),
      members: members.map((member) => memberShown(member, viewer)),
      pieces: await piecesShown(tx, row, rules, viewer),
      rules: row.kinds.map((code) => ruleOf(rules, code)),
      isolation: (await listPlaces(tx)).filter(({ what }) => what === "isolation"),
    };
  });
  if (page) {
    const others = page.members.map((member) => member.id).filter((member) => member !== viewer.member);
    await writeEventViewing(db, id, others, viewer.account, new Date(nowMs));
  }
  return page;
}

function eventFromRow(row: EventRowCounted, rules: readonly ContaminantRule[], places: Names): EventListed {
  const place = row.place ? places[row.place] : undefined;
  return {
    id: row.id,
    name: row.name,
    from: row.from_at.toISOString(),
    to: row.to_at.toISOString(),
    ...(place ? { place } : {}),
    ...(row.where_told ? { where: row.where_told } : {}),
    ...(row.incident ? { incident: row.incident } : {}),
    kinds: row.kinds.map((code) => ({ code, name: ruleOf(rules, code).name })),
    members: row.members,
    pieces: row.pieces,
    held: row.held,
  };
}

function memberShown(row: MemberOfEventRow, viewer: Viewer): MemberAtEventShown {
  const { id, number, name, station, station_name, set_name } = row;
  const isNamed = isNamedTo(viewer, { id, station: station ?? undefined });
  return {
    id,
    name: isNamed && name ? name : `Member ${number}`,
    isNamed,
    ...(station && station_name ? { station: { kind: "place", id: station, name: station_name } } : {}),
    ...(set_name ? { set: set_name } : {}),
  };
}

async function piecesShown(
  tx: Tx,
  event: EventRowCounted,
  rules: readonly ContaminantRule[],
  viewer: Viewer,
): Promise<PieceAtEvent[]> {
  const met = await metOfEvent(tx, event.id);
  const ids = met.map(({ piece }) => piece);
  const rows = new Map((await listedByIds(tx, ids)).map((row) => [row.id as PieceId, row]));
  const named = await askNames(tx, idsListed([...rows.values()]));
  const names = namesFor(named, viewer);
  const ups = upsFromRows(named);
  const entries = await loadEntries(tx, "piece", ids);
  const kinds = event.kinds.map((code) => ruleOf(rules, code));
  return met.flatMap(({ piece, evidence, hold }) => {
    const row = rows.get(piece);
    const state = foldPiece(piece, entries.get(piece) ?? []);
    if (!row || isFault(state)) return [];
    const within = row.holder ? ups.get(row.holder) : undefined;
    return [
      {
        ...listedFromRow(row, names),
        evidence: evidence as Evidence,
        ...(hold === null ? {} : { hold }),
        open: openKinds(state, event.id, kinds).map(({ code }) => code),
        ...(within ? { within } : {}),
      },
    ];
  });
}

/** Names what a list speaks of, members by number where the viewer is not shown their names. */
export function namesFor(rows: readonly NameRow[], viewer: Viewer): Names {
  const shown = rows.map((row) => {
    if (row.kind !== "member" || isNamedTo(viewer, { id: row.id, station: row.up ?? undefined })) return row;
    return { ...row, name: null };
  });
  return namesFromRows(shown);
}

/** Proposes what members may have worn: what they held over an interval, by the sets that it belongs to. */
export async function proposePieces(
  db: Db,
  members: readonly MemberId[],
  from: Date,
  to: Date,
  viewer: Viewer,
): Promise<HeldThen[]> {
  const rows = await heldDuring(db, members, from, to);
  const names = namesFor(await askNames(db, members as readonly Uuid[]), viewer);
  return members.map((member) => {
    const own = rows.filter((row) => row.member === member);
    const sets = [...new Set(own.flatMap(({ set_name }) => set_name ?? []))].sort();
    const named: Named | undefined = names[member];
    return {
      member,
      name: named?.name ?? "not on record",
      sets: sets.map((set) => ({ set, pieces: piecesOf(own, set) })),
      loose: piecesOf(own, null),
    };
  });
}

function piecesOf(
  rows: readonly { piece: PieceId; set_name: string | null }[],
  set: string | null,
): PieceId[] {
  return rows.filter(({ set_name }) => set_name === set).map(({ piece }) => piece);
}
