import type { PieceId, TagId } from "../ids.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { KindFacts } from "../register/kind.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { TagEntry, TagOnRecord } from "./tag-entries.ts";
import type { TagNumber } from "./tag-number.ts";
import { decideTag, type TagCommand } from "./tag-state.ts";

/** Brings a tag to life on a piece: the finished label was scanned back after fixing. */
export interface AttachTag {
  readonly piece: PieceId;
  readonly number: TagNumber;
  readonly position: string;
  /** How the label was read back. Typing never proves it. */
  readonly proof: "scanned" | "typed";
  /** The tag that it takes the place of; that one keeps opening the piece. */
  readonly replaces?: TagNumber;
}

/** What is on record of the tags and the piece that an act is about. */
export interface TagBench {
  readonly piece: PieceState | undefined;
  readonly kind: KindFacts | undefined;
  readonly tag: TagOnRecord | undefined;
  /** All tags that the piece carries, whatever became of them. */
  readonly carried: readonly TagOnRecord[];
  readonly at: Instant;
}

/**
 * Decides whether a tag goes live on a piece, with all reasons against it: a piece or number that nobody knows, a tag
 * that is void or on another piece, one that was not scanned back, a position that the kind does not have or that
 * another live tag sits at. With `replaces`, that tag is superseded in the same act and frees its position.
 */
export function attachTag(bench: TagBench, command: AttachTag): Decided<readonly NewEntry[]> {
  const { piece, tag, at } = bench;
  const refusals: Refusal[] = [];
  if (!piece) refusals.push({ code: "unknown-subject", subject: command.piece, what: "piece" });
  if (!tag) refusals.push({ code: "unknown-subject", subject: command.piece, what: `tag ${command.number}` });
  if (!piece || !tag) return { refusals };
  if (piece.retiredAt !== undefined) {
    refusals.push({ code: "retired", subject: piece.id, at: piece.retiredAt });
  }
  const { position, proof, replaces } = command;
  const attach = asRefusal(tag, { do: "attach", piece: piece.id, position, proof });
  if (attach) refusals.push(attach);
  refusals.push(...refusePosition(bench, piece, command));
  const old = replaces === undefined ? undefined : bench.carried.find(({ number }) => number === replaces);
  if (replaces !== undefined && !old) {
    refusals.push({ code: "unknown-subject", subject: piece.id, what: `tag ${replaces}` });
  }
  const supersede = old && asRefusal(old, { do: "supersede", by: tag.number });
  if (supersede) refusals.push(supersede);
  if (refusals.length > 0) return { refusals };
  const attached: TagEntry = { kind: "TagAttached", at, piece: piece.id, position, proof: "scanned" };
  return {
    entries: [
      ...(old ? [onTag(old.id, { kind: "TagSuperseded", at, by: tag.number })] : []),
      onTag(tag.id, attached),
    ],
  };
}

function refusePosition(bench: TagBench, piece: PieceState, command: AttachTag): Refusal[] {
  const known = bench.kind?.positions ?? [];
  const { position, replaces } = command;
  if (!known.includes(position)) return [{ code: "unknown-position", subject: piece.id, position, known }];
  const there = bench.carried.find(
    ({ state, number }) => state.status === "attached" && state.position === position && number !== replaces,
  );
  if (!there || there.number === command.number) return [];
  return [{ code: "position-taken", subject: piece.id, position, by: there.number }];
}

/** Decides any other change of a tag's state: lost, found, destroyed, void. */
export function changeTag(
  tag: TagOnRecord | undefined,
  number: TagNumber,
  command: Extract<TagCommand, { do: "lose" | "find" | "destroy" | "void" }>,
  at: Instant,
): Decided<readonly NewEntry[]> {
  if (!tag) {
    return { refusals: [{ code: "unknown-subject", subject: "" as TagId, what: `tag ${number}` }] };
  }
  const refusal = asRefusal(tag, command);
  if (refusal) return { refusals: [refusal] };
  return { entries: [onTag(tag.id, entryOf(command, at))] };
}

function entryOf(
  command: Extract<TagCommand, { do: "lose" | "find" | "destroy" | "void" }>,
  at: Instant,
): TagEntry {
  switch (command.do) {
    case "lose":
      return { kind: "TagLost", at };
    case "find":
      return { kind: "TagFound", at, proof: "scanned" };
    case "destroy":
      return { kind: "TagDestroyed", at };
    case "void":
      return { kind: "TagVoided", at, reason: command.reason };
  }
}

/** Asks the transitions of a tag and gives the refusal, where there is one. */
export function asRefusal(tag: TagOnRecord, command: TagCommand): Refusal | undefined {
  const decided = decideTag(tag.state, command);
  if ("next" in decided) return undefined;
  return { code: "tag", subject: tag.id, number: tag.number, refusal: decided.refusal };
}

/** Wraps an entry on a tag. */
export function onTag(tag: TagId, entry: TagEntry): NewEntry {
  return { subjectKind: "tag", subject: tag, entry };
}
