import type { EventFacts } from "../../../server/domain/contamination/contamination-event.ts";
import type { EventListed } from "../../../server/domain/contamination/event-views.ts";
import { instantIn, localMoment } from "../record/days.ts";

/** What a form holds of an event before it is one. */
export interface EventDraft {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly where: string;
  readonly incident: string;
  readonly kinds: readonly string[];
  readonly note: string;
}

/** Begins a draft at the scene: the last two hours, in the department's time. */
export function newDraft(now: number, timeZone: string): EventDraft {
  return {
    ...{ name: "", where: "", incident: "", kinds: [], note: "" },
    from: localText(now - 2 * 3_600_000, timeZone),
    to: localText(now, timeZone),
  };
}

export function draftOf(event: EventListed, timeZone: string): EventDraft {
  return {
    ...{ name: event.name, where: event.where ?? "", incident: event.incident ?? "", note: "" },
    kinds: event.kinds.map(({ code }) => code),
    from: localText(Date.parse(event.from), timeZone),
    to: localText(Date.parse(event.to), timeZone),
  };
}

export type FactsProblem = "name" | "kinds" | "times";

/** Makes the event's facts of a draft, or tells what is missing; instants are ISO text, as the wire has them. */
export function factsOf(
  draft: EventDraft,
  timeZone: string,
): { readonly facts: EventOnWire } | { readonly missing: readonly FactsProblem[] } {
  const [from, to] = [instantIn(draft.from, timeZone), instantIn(draft.to, timeZone)];
  const missing: FactsProblem[] = [
    ...(draft.name.trim() === "" ? (["name"] as const) : []),
    ...(draft.kinds.length === 0 ? (["kinds"] as const) : []),
    ...(from === undefined || to === undefined || to < from ? (["times"] as const) : []),
  ];
  if (missing.length > 0 || from === undefined || to === undefined) return { missing };
  const { name, where, incident, kinds } = draft;
  return {
    facts: {
      ...{ name: name.trim(), kinds },
      from: new Date(from).toISOString(),
      to: new Date(to).toISOString(),
      ...(where.trim() ? { where: where.trim() } : {}),
      ...(incident.trim() ? { incident: incident.trim() } : {}),
    },
  };
}

type EventOnWire = Omit<EventFacts, "from" | "to" | "place"> & { readonly from: string; readonly to: string };

function localText(at: number, timeZone: string): string {
  const { day, clock } = localMoment(at, timeZone);
  return `${day}T${clock}`;
}
