import type { MemberId, PlaceId } from "../ids.ts";
import type { Role } from "../register/account.ts";

/** Who looks at an event. */
export interface EventViewer {
  readonly role: Role;
  readonly member?: MemberId;
  readonly station?: PlaceId;
}

/**
 * Tells whether a viewer is shown the name of a member who was at an event. To have met a contaminant is personal:
 * names are for those who call the gear in and pack it (program manager, technician), for a company officer at the own
 * station, and for the member. Inspectors, readers and other officers see the member's number. Own judgement.
 */
export function isNamedTo(
  viewer: EventViewer,
  member: { readonly id: string; readonly station?: string | undefined },
): boolean {
  switch (viewer.role) {
    case "program manager":
    case "technician":
      return true;
    case "company officer":
      return viewer.station !== undefined && viewer.station === member.station;
    case "member":
      return viewer.member === member.id;
    case "inspector":
    case "reader":
      return false;
    default:
      return viewer.role satisfies never;
  }
}
