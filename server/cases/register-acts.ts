import { onPiece } from "../domain/bench/bench-state.ts";
import type { MemberId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { KindFacts } from "../domain/register/kind.ts";
import type { MemberFacts } from "../domain/register/member.ts";
import type { PlaceFacts } from "../domain/register/place.ts";
import {
  type DescribePiece,
  describePiece,
  type RegisterPieces,
  registerPieces,
} from "../domain/register/register-pieces.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { LocalDate } from "../domain/time.ts";
import { takePieces, takeSubjects } from "../store/act-scope.ts";
import { loadKinds } from "../store/load-rulebook.ts";
import { holderOfName, knownSerials, namePerson, pieceOfCode } from "../store/register-facts.ts";
import { findForDrafts } from "./drafts-on-record.ts";
import type { Act } from "./run-act.ts";

export const registerPiecesAct: Act<RegisterPieces> = {
  name: "registerPieces",
  rules: "shared",
  async decide({ tx }, command, { at }) {
    const found = await findForDrafts(tx, command.pieces);
    if ("refusals" in found) return found;
    const { pieces, ...register } = found;
    return registerPieces({ ...register, at }, { ...command, pieces });
  },
};

export const describePieceAct: Act<DescribePiece> = {
  name: "describePiece",
  rules: "shared",
  async decide(scope, command, { at }) {
    const state = (await takePieces(scope, [command.piece])).get(command.piece);
    const label = state && { ...state.label, ...command.label };
    const serials = state
      ? await knownSerials(scope.tx, [{ kind: state.kind, label: label as typeof state.label }])
      : new Map();
    return describePiece(state, { kinds: await loadKinds(scope.tx), serials, at }, command);
  },
};

/** Binds a maker's barcode or an old number to a piece, as a look-up key. */
export interface BindForeignCode {
  readonly piece: PieceId;
  readonly code: string;
}
export const bindForeignCodeAct: Act<BindForeignCode> = {
  name: "bindForeignCode",
  rules: "shared",
  async decide(scope, { piece, code }, { at }) {
    const state = (await takePieces(scope, [piece])).get(piece);
    if (!state) return { refusals: [{ code: "unknown-subject", subject: piece, what: "piece" }] };
    const by = await pieceOfCode(scope.tx, code);
    if (by) return { refusals: [{ code: "code-bound", text: code, by }] };
    return { entries: [onPiece(piece, { kind: "ForeignCodeBound", at, evidence: "scanned", code })] };
  },
};

export interface NamePlace extends PlaceFacts {
  readonly id: PlaceId;
}
export const namePlaceAct: Act<NamePlace> = {
  name: "namePlace",
  rules: "shared",
  async decide(scope, { id, ...place }) {
    await takeSubjects(scope, "place", [id]);
    const by = await holderOfName(scope.tx, "place", place.name);
    if (by && by !== id) return { refusals: [{ code: "name-taken", what: "place", name: place.name }] };
    return { entries: [{ subjectKind: "place", subject: id, entry: { kind: "PlaceNamed", place } }] };
  },
};

/** Lists members with number, station and shift. Names go beside the ledger. */
export interface ListMembers {
  readonly members: readonly (MemberFacts & { readonly id: MemberId; readonly name: string })[];
}
export const listMembersAct: Act<ListMembers> = {
  name: "listMembers",
  rules: "shared",
  async decide(scope, { members }) {
    await takeSubjects(
      scope,
      "member",
      members.map(({ id }) => id),
    );
    const refusals: Refusal[] = [];
    const entries: NewEntry[] = [];
    for (const { id, name, ...member } of members) {
      const by = await holderOfName(scope.tx, "member", member.number);
      if (by && by !== id) refusals.push({ code: "name-taken", what: "member number", name: member.number });
      entries.push({ subjectKind: "member", subject: id, entry: { kind: "MemberListed", member } });
      await namePerson(scope.tx, id, name);
    }
    return refusals.length > 0 ? { refusals } : { entries };
  },
};

export interface MemberLeft {
  readonly member: MemberId;
  readonly on: LocalDate;
}
export const memberLeftAct: Act<MemberLeft> = {
  name: "memberLeft",
  rules: "shared",
  async decide(scope, { member, on }) {
    await takeSubjects(scope, "member", [member]);
    if (!scope.read.get(member)?.entries.length) {
      return { refusals: [{ code: "unknown-subject", subject: member, what: "member" }] };
    }
    return { entries: [{ subjectKind: "member", subject: member, entry: { kind: "MemberLeft", on } }] };
  },
};

export interface DescribeKind extends KindFacts {
  readonly id: Uuid;
}
export const describeKindAct: Act<DescribeKind> = {
  name: "describeKind",
  rules: "exclusive",
  async decide(scope, { id, ...describes }) {
    await takeSubjects(scope, "kind", [id]);
    const by = await holderOfName(scope.tx, "kind", describes.code);
    if (by && by !== id) return { refusals: [{ code: "name-taken", what: "kind", name: describes.code }] };
    return { entries: [{ subjectKind: "kind", subject: id, entry: { kind: "KindDescribed", describes } }] };
  },
};
