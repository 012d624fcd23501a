import type { BenchState } from "../domain/bench/bench-state.ts";
import type { ContaminantRule } from "../domain/contamination/contaminant-rule.ts";
import { type EventState, foldEvent } from "../domain/contamination/contamination-event.ts";
import {
  type ChangeEvent,
  type CorrectEvent,
  changeEvent,
  correctEvent,
  type OpenEvent,
  openEvent,
} from "../domain/contamination/event-acts.ts";
import type { Holder } from "../domain/custody/holder.ts";
import { holderId } from "../domain/custody/holder.ts";
import type { EventId, MemberId, PieceId } from "../domain/ids.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import { POLICY_ID } from "../domain/register/policy.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { piecesOfEvent } from "../store/event-rows.ts";
import { takeBenchPieces } from "../store/take-bench.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

type Decision = Decided<readonly NewEntry[]>;

export const openEventAct: Act<OpenEvent> = {
  name: "openEvent",
  rules: "shared",
  async decide(scope, command, envelope) {
    await takeSubjects(scope, "contamination-event", [command.id]);
    if (entriesOf(scope, "contamination-event", command.id).length > 0) {
      return { refusals: [{ code: "name-taken", what: "event", name: command.event.name }] };
    }
    const { event, pieces, members } = command;
    const told = pieces.map(({ piece }) => piece);
    const holders = [...membersAs(members), ...placeOf(event.place)];
    return decideAt(scope, envelope, { at: event.from, pieces: told, holders }, (bench) =>
      openEvent(bench, command),
    );
  },
};

export const changeEventAct: Act<ChangeEvent> = {
  name: "changeEvent",
  rules: "shared",
  async decide(scope, command, envelope) {
    const before = await takeEvent(scope, command.id);
    if ("refusals" in before) return before;
    const pieces = await piecesOfEvent(scope.tx, command.id);
    const holders = placeOf(command.event.place);
    return decideAt(scope, envelope, { at: before.from, pieces, holders }, (bench) =>
      changeEvent(bench, before, command),
    );
  },
};

export const correctEventAct: Act<CorrectEvent> = {
  name: "correctEvent",
  rules: "shared",
  async decide(scope, command, envelope) {
    const before = await takeEvent(scope, command.event);
    if ("refusals" in before) return before;
    const pieces = [...command.pieces.map(({ piece }) => piece), ...command.notPieces];
    const holders = membersAs(command.members);
    return decideAt(scope, envelope, { at: before.from, pieces, holders }, (bench) =>
      correctEvent(bench, before, command),
    );
  },
};

/** Sets what a kind of contaminant asks for, and which cleanings end it. Every value of it is from now on as given. */
export interface RuleContaminant {
  readonly rule: ContaminantRule;
  readonly note?: string;
}
export const ruleContaminantAct: Act<RuleContaminant> = {
  name: "ruleContaminant",
  rules: "exclusive",
  async decide(scope, { rule, note }) {
    await takeSubjects(scope, "policy", [POLICY_ID]);
    const entry = { kind: "ContaminantRuled" as const, rule };
    const texts = note ? { texts: { note } } : {};
    return { entries: [{ subjectKind: "policy", subject: POLICY_ID, entry, ...texts }] };
  },
};

async function takeEvent(
  scope: ActScope,
  id: EventId,
): Promise<EventState | { readonly refusals: readonly Refusal[] }> {
  await takeSubjects(scope, "contamination-event", [id]);
  const event = foldEvent(id, entriesOf(scope, "contamination-event", id));
  return event ?? { refusals: [{ code: "unknown-subject", subject: id, what: "contamination event" }] };
}

/** Takes the pieces with what was fitted at the event's time, and decides at the time of the act. */
async function decideAt(
  scope: ActScope,
  { at, by, role }: ActEnvelope,
  asked: { readonly at: Instant; readonly pieces: readonly PieceId[]; readonly holders: readonly Holder[] },
  decide: (bench: BenchState) => Decision,
): Promise<Decision> {
  const taken = await takeBenchPieces(scope, asked.pieces, asked.at, asked.holders);
  const decided = decide({ pieces: taken.pieces, book: taken.book, at, by, role });
  const strangers = taken.strangers.map((holder): Refusal => {
    return { code: "unknown-subject", subject: holderId(holder) ?? by, what: holder.kind };
  });
  if (strangers.length === 0) return decided;
  return { refusals: [...strangers, ...("refusals" in decided ? decided.refusals : [])] };
}

function membersAs(members: readonly { readonly member: MemberId }[]): Holder[] {
  return members.map(({ member }) => ({ kind: "member", id: member }));
}

function placeOf(place: OpenEvent["event"]["place"]): Holder[] {
  return place ? [{ kind: "place", id: place }] : [];
}
