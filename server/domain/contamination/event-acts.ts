import type { BenchState } from "../bench/bench-state.ts";
import type { EventId, MemberId, PieceId } from "../ids.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { EventEntry, EventFacts, EventState } from "./contamination-event.ts";
import { type AtEvent, meetPieces, metAndHeld, strikePieces } from "./meet-pieces.ts";

export interface ListedMember {
  readonly member: MemberId;
  /** Which of the member's sets was worn. */
  readonly set?: string;
}

/** Opens a contamination event with the members and pieces that were there. */
export interface OpenEvent {
  readonly id: EventId;
  readonly event: EventFacts;
  readonly members: readonly ListedMember[];
  readonly pieces: readonly AtEvent[];
  readonly note?: string;
}

/**
 * Decides an opening: the event, its members, its pieces and their holds, as one act. Refuses an interval that ends
 * before it begins, a kind of contaminant that the department has no rule for, members and pieces that are not on record.
 */
export function openEvent(bench: BenchState, command: OpenEvent): Decided<readonly NewEntry[]> {
  const { id, event, members, pieces, note } = command;
  const met = meetPieces(bench, { id, ...event }, pieces);
  const refusals = [...refuseFacts(bench, event), ...met.refusals];
  if (refusals.length > 0) return { refusals };
  const texts = note ? { note } : undefined;
  return {
    entries: [
      onEvent(id, { kind: "EventOpened", event }, texts),
      ...members.map((one) => onEvent(id, listed(one))),
      ...met.entries,
    ],
  };
}

/** Describes an event anew: another interval, a kind that was found out later, an incident number. */
export interface ChangeEvent {
  readonly id: EventId;
  readonly event: EventFacts;
  readonly note?: string;
}

/**
 * Decides a change: every piece of the event follows. A kind added puts back the hold of a piece whose cleanings do not
 * end it; a kind taken away ends a hold that rested on it alone. Give the pieces that met the event under lock.
 */
export function changeEvent(
  bench: BenchState,
  before: EventState,
  command: ChangeEvent,
): Decided<readonly NewEntry[]> {
  const refusals = refuseFacts(bench, command.event);
  if (refusals.length > 0) return { refusals };
  const event = { id: before.id, ...command.event };
  const pieces = [...bench.pieces.values()].flatMap((state) => {
    const met = state.meetings.find((one) => one.event === before.id);
    return met ? metAndHeld(bench, event, state, met.evidence) : [];
  });
  const texts = command.note ? { note: command.note } : undefined;
  return {
    entries: [onEvent(before.id, { kind: "EventChanged", event: command.event }, texts), ...pieces],
  };
}

/** Says who and what else was at an event, or was not. */
export interface CorrectEvent {
  readonly event: EventId;
  readonly members: readonly ListedMember[];
  readonly pieces: readonly AtEvent[];
  readonly notMembers: readonly MemberId[];
  readonly notPieces: readonly PieceId[];
}

/** Decides a correction of who and what was there. Pieces taken off in the same act as others come stay apart. */
export function correctEvent(
  bench: BenchState,
  before: EventState,
  command: CorrectEvent,
): Decided<readonly NewEntry[]> {
  const struck = strikePieces(bench, before.id, command.notPieces);
  const off = new Set(command.notPieces);
  const met = meetPieces(
    bench,
    before,
    command.pieces.filter(({ piece }) => !off.has(piece)),
  );
  const known = new Set(before.members.map(({ member }) => member));
  const strangers = command.notMembers.filter((member) => !known.has(member));
  const refusals: Refusal[] = [
    ...struck.refusals,
    ...met.refusals,
    ...strangers.map((subject): Refusal => {
      return { code: "unknown-subject", subject, what: "member of this event" };
    }),
  ];
  if (refusals.length > 0) return { refusals };
  const isNews = ({ member, set }: ListedMember) =>
    !before.members.some((one) => one.member === member && one.set === set);
  return {
    entries: [
      ...command.members.filter(isNews).map((one) => onEvent(before.id, listed(one))),
      ...command.notMembers.map((member) => onEvent(before.id, { kind: "MemberTakenOff", member })),
      ...struck.entries,
      ...met.entries.filter(({ subject }) => !off.has(subject as PieceId)),
    ],
  };
}

function refuseFacts(bench: BenchState, event: EventFacts): Refusal[] {
  const { from, to } = event;
  const unknown = event.kinds.filter((kind) => !bench.book.contaminants.some(({ code }) => code === kind));
  return [
    ...(to < from ? [{ code: "ends-before-it-begins" as const, from, to }] : []),
    ...(from > bench.at ? [{ code: "in-the-future" as const, at: from, now: bench.at }] : []),
    ...unknown.map((kind): Refusal => ({ code: "unknown-contaminant", kind })),
  ];
}

function listed({ member, set }: ListedMember): EventEntry {
  return { kind: "MemberListed", member, evidence: "described", ...(set ? { set } : {}) };
}

function onEvent(id: EventId, entry: EventEntry, texts?: Readonly<Record<string, string>>): NewEntry {
  return { subjectKind: "contamination-event", subject: id, entry, ...(texts ? { texts } : {}) };
}
