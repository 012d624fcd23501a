import type { MemberId } from "../ids.ts";
import type { MemberFacts } from "../register/member.ts";
import { foldName } from "./fold-cell.ts";
import type { MemberDraft } from "./read-member-table.ts";

/** A member as the register has it, with the name that is kept beside. */
export interface KnownMember extends MemberFacts {
  readonly id: MemberId;
  readonly name?: string;
  readonly hasLeft: boolean;
}

/** A member to list; the name goes beside the ledger, and stays as it is where the file gives none. */
export interface MemberToList extends MemberFacts {
  readonly id: MemberId;
  readonly name?: string;
}

/** What a file comes to: new rows, rows that change something, and rows that the register says already. */
export interface PlannedMembers {
  readonly fresh: readonly MemberToList[];
  readonly changed: readonly MemberToList[];
  readonly same: number;
}

/**
 * Plans a roster against the register. A number that is known keeps its member: what the file says replaces, what it
 * leaves blank stays, so that a short list never empties a long one. A member who left and is on the roster is back.
 */
export function planMembers(
  drafts: readonly MemberDraft[],
  known: readonly KnownMember[],
  drawId: () => MemberId,
): PlannedMembers {
  const byNumber = new Map(known.map((member) => [foldName(member.number), member]));
  const fresh: MemberToList[] = [];
  const changed: MemberToList[] = [];
  let same = 0;
  for (const draft of drafts) {
    const member = byNumber.get(foldName(draft.number));
    if (!member) {
      fresh.push({ id: drawId(), ...draft });
      continue;
    }
    const { id, number, name, station = member.station, shift = member.shift } = { ...member, ...draft };
    const isSame =
      number === member.number &&
      name === member.name &&
      station === member.station &&
      shift === member.shift &&
      !member.hasLeft;
    if (isSame) same += 1;
    else {
      const placed = { ...(station ? { station } : {}), ...(shift ? { shift } : {}) };
      changed.push({ id, number, ...placed, ...(name === undefined ? {} : { name }) });
    }
  }
  return { fresh, changed, same };
}
