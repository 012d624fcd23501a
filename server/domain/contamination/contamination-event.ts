import type { Evidence } from "../evidence.ts";
import type { EventId, MemberId, PlaceId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";

/** What happened, when and where. The kinds are codes of contaminants; later knowledge may add to them. */
export interface EventFacts {
  /** As people say it: "the Kettle Yard fire". It names no person. */
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
  /** A place of the department, where it happened at one. */
  readonly place?: PlaceId;
  readonly where?: string;
  readonly incident?: string;
  readonly kinds: readonly string[];
}

export type EventEntry =
  | { readonly kind: "EventOpened"; readonly event: EventFacts }
  | { readonly kind: "EventChanged"; readonly event: EventFacts }
  | {
      readonly kind: "MemberListed";
      readonly member: MemberId;
      readonly evidence: Evidence;
      /** Which of the member's sets was worn; absent while nobody said. */
      readonly set?: string;
    }
  | { readonly kind: "MemberTakenOff"; readonly member: MemberId };

export interface MemberAtEvent {
  readonly member: MemberId;
  readonly set?: string;
  readonly evidence: Evidence;
  /** The entry that says so last. */
  readonly version: number;
}

export interface EventState extends EventFacts {
  readonly id: EventId;
  readonly version: number;
  readonly members: readonly MemberAtEvent[];
}

/** Folds an event's entries: the last facts hold, and of each member the last listing. Undefined before it is opened. */
export function foldEvent(id: EventId, entries: readonly Versioned<EventEntry>[]): EventState | undefined {
  let facts: EventFacts | undefined;
  const members = new Map<MemberId, MemberAtEvent>();
  for (const { version, entry } of entries) {
    switch (entry.kind) {
      case "EventOpened":
      case "EventChanged":
        facts = entry.event;
        break;
      case "MemberListed": {
        const { member, evidence, set } = entry;
        members.set(member, { member, evidence, version, ...(set ? { set } : {}) });
        break;
      }
      case "MemberTakenOff":
        members.delete(entry.member);
        break;
      default:
        entry satisfies never;
    }
  }
  return facts && { id, version: entries.at(-1)?.version ?? 0, ...facts, members: [...members.values()] };
}
