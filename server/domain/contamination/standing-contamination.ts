import type { Rulebook } from "../bench/rulebook.ts";
import { isSeen } from "../evidence.ts";
import type { EventId } from "../ids.ts";
import type { HowCleaned } from "../pieces/piece-entries.ts";
import { type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Instant } from "../time.ts";
import { acceptsCleaning, asksFor, type ByPolicy, type ContaminantRule, ruleOf } from "./contaminant-rule.ts";

/** An event as far as decisions about pieces need it. */
export interface EventBrief {
  readonly id: EventId;
  readonly name: string;
  readonly kinds: readonly string[];
}

/** A cleaning of a piece by the record, as far as it can end a contamination. */
export interface CleaningDone {
  readonly at: Instant;
  readonly how: HowCleaned;
  /** Presumed, imported or told never permits anything (design.md 3, rule 5). */
  readonly isSeen: boolean;
}

/** What a piece that met a contaminant is still asked for, by one event. */
export interface StandingContamination {
  readonly event: EventBrief;
  /** The hold's entry. */
  readonly version: number;
  readonly open: readonly ContaminantRule[];
}

/**
 * Lists the kinds of an event that no cleaning since has ended. One cleaning need not end all: each kind is ended by
 * what its own rule names, and a kind whose rule is not set is ended by none.
 */
export function stillOpen(
  kinds: readonly ContaminantRule[],
  metUntil: Instant,
  cleanings: readonly CleaningDone[],
): readonly ContaminantRule[] {
  const since = cleanings.filter(({ at, isSeen: seen }) => seen && at >= metUntil);
  return kinds.filter((rule) => !since.some(({ how }) => acceptsCleaning(rule, how) === "yes"));
}

/** Lists for each contamination hold with an event what is still open on the piece. */
export function standingContamination(state: PieceState, book: Rulebook): readonly StandingContamination[] {
  return standingHolds(state).flatMap(({ kind, event, version }) => {
    const brief = kind === "contamination" && event ? book.events.get(event) : undefined;
    if (!brief) return [];
    return [{ event: brief, version, open: openOf(state, brief, book) }];
  });
}

/** Lists what is still open on a piece of one event, by its meeting and its cleanings since. */
export function openOf(
  state: PieceState,
  event: EventBrief,
  book: Rulebook,
  more: readonly CleaningDone[] = [],
): readonly ContaminantRule[] {
  const kinds = event.kinds.map((code) => ruleOf(book.contaminants, code));
  return openKinds(state, event.id, kinds, more);
}

/** Lists what is still open of given kinds on a piece of an event; `more` are cleanings about to be written. */
export function openKinds(
  state: PieceState,
  event: EventId,
  kinds: readonly ContaminantRule[],
  more: readonly CleaningDone[] = [],
): readonly ContaminantRule[] {
  const met = state.meetings.find((meeting) => meeting.event === event);
  return stillOpen(kinds, met?.to ?? state.registeredAt, [...state.cleanings.map(asDone), ...more]);
}

function asDone({ at, how, evidence }: PieceState["cleanings"][number]): CleaningDone {
  return { at, how, isSeen: isSeen(evidence) };
}

/** Whether two pieces may be cleaned in one load, with the kinds that speak against it or have no rule set. */
export interface SharingAnswer {
  readonly may: ByPolicy;
  readonly because: readonly { readonly event: EventBrief; readonly rule: ContaminantRule }[];
}

/**
 * Tells whether two pieces may share a load. What met the same event may; a kind that must not be shared keeps its
 * pieces from all others; a kind whose rule is not set answers "not set", which stops as "no" does.
 */
export function mayShareLoad(one: PieceState, other: PieceState, book: Rulebook): SharingAnswer {
  const [ofOne, ofOther] = [standingContamination(one, book), standingContamination(other, book)];
  const against = [...notAlso(ofOne, ofOther), ...notAlso(ofOther, ofOne)];
  const answers = against.map(({ rule }) => asksFor(rule, "share a load"));
  const may = answers.includes("no") ? "no" : answers.includes("not set") ? "not set" : "yes";
  return {
    may,
    because: may === "yes" ? [] : against.filter(({ rule }) => asksFor(rule, "share a load") !== "yes"),
  };
}

function notAlso(ours: readonly StandingContamination[], theirs: readonly StandingContamination[]) {
  const shared = new Set(theirs.flatMap(({ event, open }) => open.map(({ code }) => `${event.id} ${code}`)));
  return ours.flatMap(({ event, open }) =>
    open.flatMap((rule) => (shared.has(`${event.id} ${rule.code}`) ? [] : [{ event, rule }])),
  );
}

/** Tells whether a piece must go to a specialist, with the kinds that ask for it or have no rule set. */
export function mustGoToSpecialist(state: PieceState, book: Rulebook): SharingAnswer["because"] {
  return standingContamination(state, book).flatMap(({ event, open }) =>
    open.flatMap((rule) => (asksFor(rule, "specialist") === "no" ? [] : [{ event, rule }])),
  );
}
