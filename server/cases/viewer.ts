import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { AccountId, MemberId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { Role } from "../domain/register/account.ts";
import type { Db } from "../store/db.ts";
import { isMemberOf, isWithin, whereabouts } from "../store/whereabouts.ts";

/** Who looks, as far as it decides what they see. */
export interface Viewer {
  readonly account: AccountId;
  readonly role: Role;
  readonly member?: MemberId;
  readonly station?: PlaceId;
}

/** What of a piece decides who sees it. */
export interface Whereabouts {
  readonly holder: Holder;
  /** The member whose use it belongs to. */
  readonly assigned?: MemberId;
}

/**
 * Tells whether somebody may see a piece: a member their own gear, held or assigned; a company officer what is at the
 * own station, in places within it, or with its members; every other role all.
 */
export async function maySeePiece(
  db: Db,
  viewer: Viewer,
  { holder, assigned }: Whereabouts,
): Promise<boolean> {
  switch (viewer.role) {
    case "member":
      return (
        viewer.member !== undefined && (holderId(holder) === viewer.member || assigned === viewer.member)
      );
    case "company officer": {
      if (!viewer.station) return false;
      if (holder.kind === "place" && (await isWithin(db, holder.id, viewer.station))) return true;
      const members = [holder.kind === "member" ? holder.id : undefined, assigned].filter(
        (id) => id !== undefined,
      );
      return isMemberOf(db, members, viewer.station);
    }
    case "technician":
    case "inspector":
    case "program manager":
    case "reader":
      return true;
    default:
      return viewer.role satisfies never;
  }
}

/** Tells whether somebody may see the piece with this id. A piece that is not on record may be asked for. */
export async function maySeePieceById(db: Db, viewer: Viewer, piece: PieceId): Promise<boolean> {
  if (viewer.role !== "member" && viewer.role !== "company officer") return true;
  const known = await whereabouts(db, piece);
  return known === undefined || maySeePiece(db, viewer, known);
}

/** Tells whether somebody may see a member's page: one's own, an officer those of the station, other roles all. */
export async function maySeeMember(db: Db, viewer: Viewer, member: Uuid): Promise<boolean> {
  if (viewer.role === "member") return viewer.member === member;
  if (viewer.role !== "company officer") return true;
  return viewer.station !== undefined && isMemberOf(db, [member], viewer.station);
}

/** Tells whether somebody may see a place's page: an officer the own station and what is within it, a member none. */
export async function maySeePlace(db: Db, viewer: Viewer, place: Uuid): Promise<boolean> {
  if (viewer.role === "member") return false;
  if (viewer.role !== "company officer") return true;
  return viewer.station !== undefined && isWithin(db, place, viewer.station);
}
