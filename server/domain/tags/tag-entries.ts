import type { PieceId, TagId, Uuid } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";
import type { TagNumber } from "./tag-number.ts";
import { decideTag, type TagCommand, type TagState } from "./tag-state.ts";

export type TagEntry =
  | {
      readonly kind: "TagReserved";
      readonly at: Instant;
      readonly number: TagNumber;
      readonly run?: Uuid;
      readonly meantFor?: PieceId;
    }
  | { readonly kind: "TagPrinted"; readonly at: Instant; readonly run: Uuid }
  | {
      readonly kind: "TagAttached";
      readonly at: Instant;
      readonly piece: PieceId;
      readonly position: string;
      readonly proof: "scanned";
    }
  | { readonly kind: "TagSuperseded"; readonly at: Instant; readonly by: TagNumber }
  | { readonly kind: "TagLost"; readonly at: Instant }
  | { readonly kind: "TagFound"; readonly at: Instant; readonly proof: "scanned" }
  | { readonly kind: "TagDestroyed"; readonly at: Instant }
  | { readonly kind: "TagVoided"; readonly at: Instant; readonly reason: string };

/** What the ledger says of one tag. */
export interface TagOnRecord {
  readonly id: TagId;
  readonly version: number;
  readonly number: TagNumber;
  readonly state: TagState;
  readonly run?: Uuid;
  readonly meantFor?: PieceId;
  readonly attachedAt?: Instant;
}

/** Folds a tag's entries through the transitions that decided them. Undefined before it is reserved. */
export function foldTag(id: TagId, entries: readonly Versioned<TagEntry>[]): TagOnRecord | undefined {
  let tag: TagOnRecord | undefined;
  for (const { version, entry } of entries) {
    if (entry.kind === "TagReserved") {
      const { number, run, meantFor } = entry;
      const state: TagState = { status: "reserved" };
      tag = { id, version, number, state, ...(run ? { run } : {}), ...(meantFor ? { meantFor } : {}) };
      continue;
    }
    if (!tag) return undefined;
    const decided = decideTag(tag.state, commandOf(entry));
    tag = {
      ...tag,
      version,
      ...("next" in decided ? { state: decided.next } : {}),
      ...(entry.kind === "TagPrinted" ? { run: entry.run } : {}),
      ...(entry.kind === "TagAttached" ? { attachedAt: entry.at } : {}),
    };
  }
  return tag;
}

/** Names the command that an entry is the outcome of. */
function commandOf(entry: Exclude<TagEntry, { kind: "TagReserved" }>): TagCommand {
  switch (entry.kind) {
    case "TagPrinted":
      return { do: "print" };
    case "TagAttached":
      return { do: "attach", piece: entry.piece, position: entry.position, proof: entry.proof };
    case "TagSuperseded":
      return { do: "supersede", by: entry.by };
    case "TagLost":
      return { do: "lose" };
    case "TagFound":
      return { do: "find", proof: entry.proof };
    case "TagDestroyed":
      return { do: "destroy" };
    case "TagVoided":
      return { do: "void", reason: entry.reason };
  }
}
