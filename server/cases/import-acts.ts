import type { MemberId, Uuid } from "../domain/ids.ts";
import type { MemberToList } from "../domain/intake/plan-members.ts";
import type { ModelToDescribe } from "../domain/intake/plan-models.ts";
import type { Refusal } from "../domain/refusal.ts";
import { type ImportPieces, importPieces } from "../domain/register/import-pieces.ts";
import type { MemberFacts } from "../domain/register/member.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { type ActScope, takeSubjects } from "../store/act-scope.ts";
import { knownCodes } from "../store/import-names.ts";
import { claimFile, type ImportWhat } from "../store/imports.ts";
import { membersByNumber, namePeople, unknownStations } from "../store/members-on-record.ts";
import { findForDrafts } from "./drafts-on-record.ts";
import { describeModelsAct } from "./rule-acts.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

/** What is kept of a file beside the ledger. Its name and parked rows are no part of the command. */
export interface FileBeside {
  readonly name: string;
  readonly parked: number;
  readonly parkedCsv?: string;
  /** Told how far the writing is. */
  readonly onWritten?: (done: number, total: number) => void;
}

/** The same bytes were brought in before: nothing is written, and that is no refusal. */
export class FileKnown extends Error {
  readonly sha256: string;
  constructor(sha256: string) {
    super("The file was brought in before.");
    this.sha256 = sha256;
  }
}

/** Brings in all accepted rows of a file of pieces, with their foreign codes, as one act. */
export function importPiecesAct(beside: FileBeside): Act<ImportPieces> {
  return {
    name: "importPieces",
    rules: "shared",
    async decide(scope, command, envelope) {
      await claim(scope, "pieces", command.file, command.pieces.length, beside, envelope);
      const found = await findForDrafts(scope.tx, command.pieces);
      if ("refusals" in found) return found;
      const { pieces, ...register } = found;
      const codes = await codesOf(scope, command);
      return importPieces({ ...register, codes, at: envelope.at }, { file: command.file, pieces });
    },
  };
}

/** Foreign codes are looked up whatever their case, and kept as the file has them. */
async function codesOf({ tx }: ActScope, { pieces }: ImportPieces) {
  const codes = pieces.flatMap(({ foreignCode }) => foreignCode ?? []);
  const known = await knownCodes(tx, codes);
  return new Map(
    codes.flatMap((code) => {
      const piece = known.get(code.toLowerCase());
      return piece ? [[code, piece] as const] : [];
    }),
  );
}

export interface ImportMembers {
  readonly file: string;
  readonly members: readonly (MemberFacts & { readonly id: MemberId })[];
}

/** Brings in a roster as one act. Names stay out of the command, since a command is hashed for ever. */
export function importMembersAct(
  beside: FileBeside,
  names: ReadonlyMap<MemberId, string>,
): Act<ImportMembers> {
  return {
    name: "importMembers",
    rules: "shared",
    async decide(scope, { file, members }, envelope) {
      await claim(scope, "members", file, members.length, beside, envelope);
      const ids = members.map(({ id }) => id);
      await takeSubjects(scope, "member", ids);
      const refusals = await refuseMembers(scope, members);
      if (refusals.length > 0) return { refusals };
      await namePeople(scope.tx, names);
      return {
        entries: members.map(
          ({ id, ...member }): NewEntry => ({
            subjectKind: "member",
            subject: id,
            entry: { kind: "MemberListed", member },
          }),
        ),
      };
    },
  };
}

async function refuseMembers({ tx }: ActScope, members: ImportMembers["members"]): Promise<Refusal[]> {
  const byNumber = await membersByNumber(
    tx,
    members.map(({ number }) => number),
  );
  const taken = members.filter(({ id, number }) => (byNumber.get(number) ?? id) !== id);
  const stations = [...new Set(members.flatMap(({ station }) => station ?? []))];
  const unknown = await unknownStations(tx, stations);
  return [
    ...taken.map(({ number }): Refusal => ({ code: "name-taken", what: "member number", name: number })),
    ...unknown.map((subject): Refusal => ({ code: "unknown-subject", subject, what: "station" })),
  ];
}

export interface ImportModels {
  readonly file: string;
  readonly models: readonly ModelToDescribe[];
}

/** Brings in rows of the model table as one act, under the exclusive lock that a change of rules takes. */
export function importModelsAct(beside: FileBeside): Act<ImportModels> {
  return {
    name: "importModels",
    rules: "exclusive",
    async decide(scope, { file, models }, envelope) {
      await claim(scope, "models", file, models.length, beside, envelope);
      return describeModelsAct.decide(scope, { models }, envelope);
    },
  };
}

/** Rows of tables that one row of a file comes to, near enough to show how far it is: entry, its subject, its stay. */
const ROWS_OF: Readonly<Record<ImportWhat, number>> = { pieces: 3, members: 2, models: 3 };

async function claim(
  scope: ActScope,
  what: ImportWhat,
  sha256: string,
  accepted: number,
  beside: FileBeside,
  envelope: ActEnvelope,
): Promise<void> {
  const { by, id: act } = envelope;
  const { onWritten, ...kept } = beside;
  const isOurs = await claimFile(scope.tx, { what, sha256, accepted, by, act: act as Uuid, ...kept });
  if (!isOurs) throw new FileKnown(sha256);
  if (!onWritten) return;
  let done = 0;
  scope.onWritten = (rows) => {
    done += rows;
    onWritten(Math.min(done, accepted * ROWS_OF[what]), accepted * ROWS_OF[what]);
  };
}

/** Parts members from their names, for the command and what is kept beside it. */
export function partNames(members: readonly MemberToList[]): {
  readonly members: ImportMembers["members"];
  readonly names: ReadonlyMap<MemberId, string>;
} {
  return {
    members: members.map(({ name: _, ...member }) => member),
    names: new Map(members.flatMap(({ id, name }) => (name === undefined ? [] : [[id, name] as const]))),
  };
}
