import type { Db } from "../cases/database-handle.ts";
import type { Session } from "../cases/sessions.ts";
import { maySeeMember, maySeePieceById, maySeePlace, type Viewer } from "../cases/viewer.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import { problem } from "./problem.ts";

/** Who looks, as the session has it. */
export function viewerOf({ account, role, member, station }: Session): Viewer {
  return { account, role, ...(member ? { member } : {}), ...(station ? { station } : {}) };
}

const OWN = {
  piece: "Members see their own gear, company officers that of their station.",
  member: "Members see their own page, company officers those of their station.",
  place: "Company officers see their own station and what is in it.",
};

/** Ends the request unless the viewer may see it. */
export async function mustSee(
  db: Db,
  session: Session,
  what: { readonly piece: PieceId } | { readonly member: Uuid } | { readonly place: Uuid },
): Promise<Viewer> {
  const viewer = viewerOf(session);
  if ("piece" in what && !(await maySeePieceById(db, viewer, what.piece))) throw refused("piece");
  if ("member" in what && !(await maySeeMember(db, viewer, what.member))) throw refused("member");
  if ("place" in what && !(await maySeePlace(db, viewer, what.place))) throw refused("place");
  return viewer;
}

function refused(what: keyof typeof OWN) {
  return problem("role-may-not", OWN[what]);
}
