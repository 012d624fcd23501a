/** Says contacts as the screen does; the wording of a path is the domain's, shared with print and spreadsheet. */

import { sayNamed, sayPath } from "../../../server/domain/tracing/contact-words.ts";
import type { OutcomeView, TraceContact, TraceView } from "../../../server/domain/tracing/trace-view.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";

const words = TRACING_WORDS;

/** Says an instant of the wire as a bench does. */
export function whenBy(clock: Clock): (at: string) => string {
  return (at) => sayWhen(at, clock.now, clock.timeZone);
}

export function pathOf(contact: TraceContact, view: TraceView, clock: Clock): string {
  return sayPath(contact, view, (at) => sayWhen(new Date(at).toISOString(), clock.now, clock.timeZone));
}

export function nameOf(contact: Pick<TraceContact, "name" | "kind" | "number">): string {
  return sayNamed(contact.name);
}

/** Tells whether a contact is settled: it has an outcome that nothing overtook. */
export function isSettled({ outcome }: TraceContact): boolean {
  return outcome !== undefined && outcome.seenSince === undefined;
}

export function outcomeSays(outcome: OutcomeView | undefined, when: (at: string) => string): string {
  if (!outcome) return words.open;
  if (outcome.seenSince) return words.seenSince(when(outcome.seenSince));
  return words.outcomeBy(outcome.outcome, when(outcome.at), outcome.by.name);
}

/** People and stations to be called for what is in the field and not settled: by station, then shift. */
export interface CallIn {
  readonly station: string;
  readonly shift: string | undefined;
  readonly contacts: readonly TraceContact[];
}

/** Lists what is with members, in the order of stations and shifts; what a place in the cage has is not called in. */
export function callInList(contacts: readonly TraceContact[]): readonly CallIn[] {
  const open = contacts.filter((contact) => !isSettled(contact) && contact.nowWith.kind === "member");
  const groups = Map.groupBy(open, ({ station, shift }) =>
    JSON.stringify([station?.name ?? words.withoutStation, shift ?? ""]),
  );
  return [...groups]
    .map(([key, listed]) => {
      const [station, shift] = JSON.parse(key) as [string, string];
      return { station, shift: shift || undefined, contacts: listed };
    })
    .sort((a, b) =>
      a.station === b.station ? compare(a.shift ?? "", b.shift ?? "") : compare(a.station, b.station),
    );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
