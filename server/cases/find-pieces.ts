import type { PieceId } from "../domain/ids.ts";
import { readyOfGarment } from "../domain/label-check/ready-of-garment.ts";
import type { PieceListed, PiecesFound } from "../domain/page-views.ts";
import type { Db } from "../store/db.ts";
import { findPieces, type PiecesSought } from "../store/find-pieces.ts";
import { loadGarments } from "../store/load-garments.ts";
import { garmentOf } from "./garments.ts";
import type { Viewer } from "./viewer.ts";

export { PIECE_STATES, type PiecesSought } from "../store/find-pieces.ts";

/** How often more is fetched to fill a page of what is ready; then the page is handed out as it is. */
const ROUNDS = 4;

/** Finds pieces as far as the viewer may see them: a member the own gear, an officer that of the own station. */
export async function searchPieces(db: Db, sought: PiecesSought, viewer: Viewer): Promise<PiecesFound> {
  const own = ownOf(viewer);
  const isAnothers = own?.member !== undefined && sought.member !== undefined && sought.member !== own.member;
  return own && !isAnothers ? findPieces(db, { ...sought, ...own }) : { rows: [] };
}

/** The narrowing that a viewer's role asks for; undefined when the account is tied to nobody and nothing. */
function ownOf({ role, member, station }: Viewer): Partial<PiecesSought> | undefined {
  if (role === "member") return member && { member };
  if (role === "company officer") return station && { station };
  return {};
}

/**
 * Finds what is ready to issue: shells with all that is fitted in them, and pieces that stand alone. Readiness is
 * computed and never kept, so pages are filled by asking for more until enough of it is ready.
 */
export async function findReady(db: Db, sought: PiecesSought, viewer: Viewer): Promise<PiecesFound> {
  const ready: PieceListed[] = [];
  let after = sought.after;
  for (let round = 0; round < ROUNDS; round++) {
    const { rows, next } = await searchPieces(
      db,
      { ...sought, state: "perhaps ready", ...(after ? { after } : {}) },
      viewer,
    );
    for (const row of await thoseReady(db, rows)) {
      ready.push(row);
      if (ready.length === sought.limit) return { rows: ready, next: row.id };
    }
    if (!next) return { rows: ready };
    after = next as PieceId;
  }
  return { rows: ready, ...(after ? { next: after } : {}) };
}

async function thoseReady(db: Db, rows: readonly PieceListed[]): Promise<PieceListed[]> {
  if (rows.length === 0) return [];
  const found = await loadGarments(
    db,
    rows.map(({ id }) => id),
  );
  return rows.filter(({ id }) => {
    const root = found.roots.get(id);
    if (!root) return false;
    const garment = garmentOf(found, root);
    // Only pieces at a place were asked for.
    const atAPlace = { kind: "place" as const, id: garment.root.holder.id as never };
    return readyOfGarment(garment, atAPlace, found.labelsNotRead).isReady;
  });
}
