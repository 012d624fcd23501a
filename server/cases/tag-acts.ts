import type { MemberId, PieceId, PlaceId, TagId, Uuid } from "../domain/ids.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { type AttachTag, asRefusal, attachTag, changeTag, onTag } from "../domain/tags/attach-tag.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { pieceOfTag } from "../domain/tags/tag-state.ts";
import type { Instant } from "../domain/time.ts";
import { uuidV7 } from "../ledger/uuid-v7.ts";
import { type ActScope, takePieces, takeSubjects } from "../store/act-scope.ts";
import { loadKinds } from "../store/load-rulebook.ts";
import { takeRun, takeTags } from "../store/take-tags.ts";
import { drawNumbers } from "./draw-numbers.ts";
import type { Act } from "./run-act.ts";

/** Reserves numbers for one print run: spare tags, or one for each of the pieces. */
export interface ReserveTags {
  readonly run: Uuid;
  readonly spare?: number;
  readonly pieces?: readonly PieceId[];
}
export const reserveTagsAct: Act<ReserveTags> = {
  name: "reserveTags",
  rules: "shared",
  async decide(scope, { run, spare = 0, pieces = [] }, { at }) {
    const states = await takePieces(scope, pieces);
    const unknown = pieces.filter((piece) => !states.has(piece));
    if (unknown.length > 0) {
      return { refusals: unknown.map((subject) => ({ code: "unknown-subject", subject, what: "piece" })) };
    }
    const numbers = await drawNumbers(scope.tx, spare + pieces.length);
    return {
      entries: numbers.map((number, index) => {
        const meantFor = pieces[index];
        const entry = { kind: "TagReserved" as const, at, number, run, ...(meantFor ? { meantFor } : {}) };
        return onTag(uuidV7(at) as TagId, entry);
      }),
    };
  },
};

/**
 * Says that the labels of a run were printed: those that were reserved for it, or those that it names, which an earlier
 * run reserved. Refused as a whole while one of them may not be printed again.
 */
export interface PrintTags {
  readonly run: Uuid;
  readonly numbers?: readonly TagNumber[];
}
export const printTagsAct: Act<PrintTags> = {
  name: "printTags",
  rules: "shared",
  async decide(scope, { run, numbers }, { at }) {
    const tags = numbers ? await takeTags(scope, numbers) : await takeRun(scope, run);
    if (tags.length === 0)
      return { refusals: [{ code: "unknown-subject", subject: run, what: "print run" }] };
    const refusals = tags.flatMap((tag) => asRefusal(tag, { do: "print" }) ?? []);
    if (refusals.length > 0) return { refusals };
    return { entries: tags.map(({ id }) => onTag(id, { kind: "TagPrinted", at, run })) };
  },
};

export const attachTagAct: Act<AttachTag> = {
  name: "attachTag",
  rules: "shared",
  decide: (scope, command, { at }) => decideAttachments(scope, [command], at),
};

/** Brings several tags to life as one act: a garment's layers, or what a tagging run read back together. */
export interface AttachTags {
  readonly tags: readonly AttachTag[];
}
export const attachTagsAct: Act<AttachTags> = {
  name: "attachTags",
  rules: "shared",
  decide: (scope, { tags }, { at }) => decideAttachments(scope, tags, at),
};

/** Decides each attachment as if the ones before it were done; one refusal refuses all. */
async function decideAttachments(
  scope: ActScope,
  commands: readonly AttachTag[],
  at: Instant,
): Promise<Decided<readonly NewEntry[]>> {
  const pieces = await takePieces(
    scope,
    commands.map(({ piece }) => piece),
  );
  const numbers = commands.map(({ number }) => number);
  const known = await takeTags(scope, numbers, [...pieces.keys()]);
  const kinds = await loadKinds(scope.tx);
  const entries: NewEntry[] = [];
  const refusals: Refusal[] = [];
  for (const command of commands) {
    const piece = pieces.get(command.piece);
    const carried = known.filter(({ state }) => pieceOfTag(state) === command.piece);
    const tag = known.find(({ number }) => number === command.number);
    const decided = attachTag({ piece, kind: piece && kinds.get(piece.kind), tag, carried, at }, command);
    if ("refusals" in decided) refusals.push(...decided.refusals);
    else entries.push(...decided.entries);
  }
  const twice = numbers.length !== new Set(numbers).size;
  if (twice) refusals.push({ code: "nothing-to-do" });
  return refusals.length > 0 ? { refusals } : { entries };
}

/** What became of a tag that is not on its way to a piece. */
export interface ChangeTag {
  readonly number: TagNumber;
  readonly to: "lost" | "found" | "destroyed" | "void";
  readonly reason?: string;
}
export const changeTagAct: Act<ChangeTag> = {
  name: "changeTag",
  rules: "shared",
  async decide(scope, { number, to, reason }, { at }) {
    const tag = (await takeTags(scope, [number]))[0];
    switch (to) {
      case "lost":
        return changeTag(tag, number, { do: "lose" }, at);
      case "found":
        return changeTag(tag, number, { do: "find", proof: "scanned" }, at);
      case "destroyed":
        return changeTag(tag, number, { do: "destroy" }, at);
      case "void":
        return changeTag(tag, number, { do: "void", reason: reason ?? "spoiled" }, at);
    }
  },
};

/** Gives places and members that have none a card with a number of its own; those that have one keep it. */
export interface DrawCards {
  readonly places?: readonly PlaceId[];
  readonly members?: readonly MemberId[];
}
export const drawCardsAct: Act<DrawCards> = {
  name: "drawCards",
  rules: "shared",
  async decide(scope, { places = [], members = [] }) {
    await takeSubjects(scope, "place", places);
    await takeSubjects(scope, "member", members);
    const wanted = [
      ...places.map((subject) => ({ subject, subjectKind: "place" as const })),
      ...members.map((subject) => ({ subject, subjectKind: "member" as const })),
    ];
    const refusals = wanted
      .filter(({ subject }) => !scope.read.get(subject)?.entries.length)
      .map(({ subject, subjectKind }): Refusal => ({ code: "unknown-subject", subject, what: subjectKind }));
    if (refusals.length > 0) return { refusals };
    const lacking = wanted.filter(({ subject }) => !hasCard(scope, subject));
    const numbers = await drawNumbers(scope.tx, lacking.length);
    const entries = lacking.flatMap(({ subject, subjectKind }, index): NewEntry[] => {
      const number = numbers[index];
      if (!number) return [];
      return subjectKind === "place"
        ? [{ subjectKind, subject, entry: { kind: "PlaceCarded", number } }]
        : [{ subjectKind, subject, entry: { kind: "MemberCarded", number } }];
    });
    return { entries };
  },
};

function hasCard(scope: ActScope, subject: Uuid): boolean {
  const entries = scope.read.get(subject)?.entries ?? [];
  return entries.some(({ entry }) => entry.kind === "PlaceCarded" || entry.kind === "MemberCarded");
}
