import type { LoadEntry } from "./cleaning/load.ts";
import type { MachineEntry } from "./cleaning/machine.ts";
import type { EventEntry } from "./contamination/contamination-event.ts";
import type { Uuid } from "./ids.ts";
import type { PieceEntry } from "./pieces/piece-entries.ts";
import type { AcceptanceEntry } from "./register/acceptance.ts";
import type { AccountEntry } from "./register/account.ts";
import type { KindEntry } from "./register/kind.ts";
import type { MemberEntry } from "./register/member.ts";
import type { ModelEntry } from "./register/model.ts";
import type { OutsideEntry, ProviderEntry } from "./register/parties.ts";
import type { PlaceEntry } from "./register/place.ts";
import type { PolicyEntry } from "./register/policy.ts";
import type { TagEntry } from "./tags/tag-entries.ts";
import type { TraceEntry } from "./tracing/kept-trace.ts";

/** What an entry can be about. Later work adds kinds of entries, not subjects' mechanism. */
export const SUBJECT_KINDS = [
  "piece",
  "tag",
  "place",
  "member",
  "provider",
  "outside",
  "kind",
  "model",
  "acceptance",
  "load",
  "machine",
  "notice",
  "contamination-event",
  "policy",
  "account",
  "trace",
] as const;

/** The entries of each subject that has some today. */
export interface EntriesOf {
  piece: PieceEntry;
  tag: TagEntry;
  place: PlaceEntry;
  member: MemberEntry;
  provider: ProviderEntry;
  outside: OutsideEntry;
  kind: KindEntry;
  model: ModelEntry;
  acceptance: AcceptanceEntry;
  "contamination-event": EventEntry;
  load: LoadEntry;
  machine: MachineEntry;
  policy: PolicyEntry;
  account: AccountEntry;
  trace: TraceEntry;
}
export type SubjectKind = keyof EntriesOf;

/** An entry that a decision wants written; its free texts go apart from the hashed bytes. */
export type NewEntry = {
  [Kind in SubjectKind]: {
    readonly subjectKind: Kind;
    readonly subject: Uuid;
    readonly entry: EntriesOf[Kind];
    readonly texts?: Readonly<Record<string, string>>;
  };
}[SubjectKind];
