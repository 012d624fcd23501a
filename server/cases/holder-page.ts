import { holderId } from "../domain/custody/holder.ts";
import type { Evidence } from "../domain/evidence.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { HolderPage, PieceListed, PieceWith } from "../domain/page-views.ts";
import type { Names } from "../domain/piece-view.ts";
import { foldPiece, isFault, type PieceState, standingHolds } from "../domain/pieces/piece-state.ts";
import type { LocalDate } from "../domain/time.ts";
import { departmentZone } from "../store/days.ts";
import type { Tx } from "../store/db.ts";
import {
  type DayBounds,
  dayBounds,
  listedByIds,
  perhapsThere,
  piecesNow,
  piecesOnDay,
  type StayedRow,
} from "../store/holder-pieces.ts";
import { idsListed, listedFromRow } from "../store/listed-pieces.ts";
import { entriesOfSubject, findPosition, type LoadedEntry, loadHistory } from "../store/load-trail.ts";
import { askNames, nameHolder, namesFromRows } from "../store/names.ts";

/** What a holder's page is asked for. */
export interface HolderQuestion {
  /** A day in the department's time zone; now, when left out. */
  readonly on?: LocalDate;
  /** Only what was recorded up to this position of the ledger. */
  readonly knownAt?: number;
  readonly after?: PieceId;
  readonly limit: number;
}

/**
 * Tells which pieces a holder has, or had on a day as it is known now, with what was recorded after that day marked; or
 * either as it was known at a position, folded from the entries up to there. Undefined for a position not reached.
 */
export async function holderPage(
  tx: Tx,
  holder: Uuid,
  asked: HolderQuestion,
): Promise<HolderPage | undefined> {
  const timeZone = await departmentZone(tx);
  const day = asked.on && (await dayBounds(tx, asked.on, timeZone));
  const head = { timeZone, ...(asked.on ? { on: asked.on } : {}) };
  if (asked.knownAt !== undefined) {
    const at = await findPosition(tx, asked.knownAt);
    if (!at) return undefined;
    const knownAt = { position: at.position, recordedAt: at.recordedAt.toISOString() };
    return { ...head, knownAt, ...(await knownThen(tx, holder, at, day, asked)) };
  }
  const page = { after: asked.after, limit: asked.limit };
  const rows = day ? await piecesOnDay(tx, holder, day, page) : await piecesNow(tx, holder, page);
  const names = namesFromRows(await askNames(tx, idsListed(rows)));
  return {
    ...head,
    ...paged(
      rows.map((row) => pieceWith(row, names, day)),
      asked.limit,
    ),
  };
}

/** Cuts what is more than a page of pieces; a piece that came twice stands on one page. */
function paged(pieces: readonly PieceWith[], limit: number): Pick<HolderPage, "pieces" | "next"> {
  const ids = [...new Set(pieces.map(({ id }) => id))];
  const last = ids[limit - 1];
  if (ids.length <= limit || last === undefined) return { pieces };
  return { pieces: pieces.filter(({ id }) => id <= last), next: last };
}

function pieceWith(row: StayedRow, names: Names, day: DayBounds | undefined): PieceWith {
  return {
    ...listedFromRow(row, names),
    from: row.from_at.toISOString(),
    ...(row.to_at ? { to: row.to_at.toISOString() } : {}),
    evidence: row.evidence as Evidence,
    ...laterOf(row.coming, row.going, day),
  };
}

function laterOf(
  coming: Date | null,
  going: Date | null,
  day: DayBounds | undefined,
): Pick<PieceWith, "recordedLater"> {
  const isLater = (at: Date | null): at is Date => day !== undefined && at !== null && at >= day.end;
  if (!isLater(coming) && !isLater(going)) return {};
  return {
    recordedLater: {
      ...(isLater(coming) ? { coming: coming.toISOString() } : {}),
      ...(isLater(going) ? { going: going.toISOString() } : {}),
    },
  };
}

/** So many pieces are folded at once. */
const BATCH = 200;

async function knownThen(
  tx: Tx,
  holder: Uuid,
  at: { readonly position: number; readonly recordedAt: Date },
  day: DayBounds | undefined,
  { after, limit }: HolderQuestion,
): Promise<Pick<HolderPage, "pieces" | "next">> {
  const pieces: PieceWith[] = [];
  for (let from = after; ; ) {
    const ids = await perhapsThere(tx, holder, at, day, { after: from, limit: BATCH - 1 });
    pieces.push(...(await foldThen(tx, holder, at.position, day, ids)));
    if (ids.length < BATCH || new Set(pieces.map(({ id }) => id)).size > limit) return paged(pieces, limit);
    from = ids.at(-1);
  }
}

async function foldThen(
  tx: Tx,
  holder: Uuid,
  position: number,
  day: DayBounds | undefined,
  ids: readonly PieceId[],
): Promise<PieceWith[]> {
  const loaded = await loadHistory(tx, ids, position);
  const listed = new Map((await listedByIds(tx, ids)).map((row) => [row.id, row]));
  const states = ids.flatMap((id) => stateOf(loaded, id) ?? []);
  const said = states.flatMap((state) =>
    [holderId(state.holder), state.assignment?.member].filter((id) => id !== undefined),
  );
  const names = namesFromRows(await askNames(tx, said));
  return states.flatMap((state) => {
    const row = listed.get(state.id);
    if (!row) return [];
    const known = listedThen(listedFromRow(row, names), state, names);
    const recorded = (version: number | undefined) =>
      loaded.find((entry) => entry.subject === state.id && entry.version === version)?.recordedAt ?? null;
    return state.stays
      .filter((stay) => holderId(stay.holder) === holder && isThen(stay.from, stay.to, day))
      .map(
        (stay): PieceWith => ({
          ...known,
          from: new Date(stay.from).toISOString(),
          ...(stay.to === undefined ? {} : { to: new Date(stay.to).toISOString() }),
          evidence: stay.evidence,
          ...laterOf(recorded(stay.fromVersion), recorded(stay.toVersion), day),
        }),
      );
  });
}

function stateOf(loaded: readonly LoadedEntry[], id: PieceId): PieceState | undefined {
  const entries = entriesOfSubject<never>(loaded, id);
  if (entries.length === 0) return undefined;
  const state = foldPiece(id, entries);
  return isFault(state) ? undefined : state;
}

/** The rule of piecesOnDay, on folded stays; without a day the stay that was open then. */
function isThen(from: number, to: number | undefined, day: DayBounds | undefined): boolean {
  if (!day) return to === undefined;
  const [start, end] = [day.start.getTime(), day.end.getTime()];
  return from < end && (to === undefined || to > start || (to === from && from >= start));
}

/** What was known of the piece then; its tag number is today's, so that it can be found. */
function listedThen(today: PieceListed, state: PieceState, names: Names): PieceListed {
  const { id, kind, number } = today;
  const { label, assignment } = state;
  return {
    id,
    kind,
    ...(number ? { number } : {}),
    ...(label.maker ? { maker: label.maker } : {}),
    ...(label.modelName ? { modelName: label.modelName } : {}),
    ...(label.size ? { size: label.size } : {}),
    ...(label.serial ? { serial: label.serial } : {}),
    labelReading: state.reading,
    holder: nameHolder(state.holder, names),
    heldSince: new Date(state.heldSince).toISOString(),
    ...(assignment
      ? {
          assignment: {
            member: nameHolder({ kind: "member", id: assignment.member }, names),
            set: assignment.set,
          },
        }
      : {}),
    soiled: state.soiled,
    isHeld: standingHolds(state).length > 0,
    ...(state.retiredAt === undefined ? {} : { retiredAt: new Date(state.retiredAt).toISOString() }),
    ...(state.seenAt === undefined ? {} : { seenAt: new Date(state.seenAt).toISOString() }),
  };
}
