import { randomBytes } from "node:crypto";
import type { Uuid } from "../domain/ids.ts";
import type { EntriesOf, SubjectKind } from "../domain/subjects.ts";
import { canonicalBytes, type LedgerValue, sha256 } from "./canonical.ts";

/** The shape that new entries are written in. An older one is lifted when read, never rewritten. */
const SCHEMA = 1;

/** A free text on its way into the ledger: the bytes hold only its salted hash. */
export interface SaltedText {
  readonly name: string;
  readonly salt: Buffer;
  readonly body: string;
}

/** Draws a salt for each text. 128 bits, so that a short text cannot be guessed from its hash. */
export function saltTexts(texts: Readonly<Record<string, string>>): SaltedText[] {
  return Object.entries(texts).map(([name, body]) => ({ name, salt: randomBytes(16), body }));
}

/** Hashes a text with its salt: SHA-256(salt ‖ text). */
export function textHash(text: Pick<SaltedText, "salt" | "body">): Buffer {
  return sha256(text.salt, text.body);
}

/** Which entry of which subject it is: bound by the hash with the rest, so that it cannot be put to another. */
export interface EntryPlace {
  readonly kind: SubjectKind;
  readonly id: Uuid;
  readonly version: number;
}

/** Writes an entry as the canonical bytes that are hashed and kept. */
export function entryBytes(entry: object, place: EntryPlace, texts: readonly SaltedText[]): Buffer {
  const hashes = texts.map((text) => [text.name, textHash(text).toString("hex")]);
  const withTexts = texts.length === 0 ? {} : { texts: Object.fromEntries(hashes) };
  const { kind, id, version } = place;
  return canonicalBytes({
    ...(entry as Record<string, LedgerValue>),
    ...withTexts,
    about: { kind, id, version },
    schema: SCHEMA,
  });
}

/** What entry bytes bind beside the entry itself, as far as they say it. */
export interface EntryBindings {
  readonly kind?: unknown;
  readonly about?: { readonly kind?: unknown; readonly id?: unknown; readonly version?: unknown };
  /** The hash of each free text, by its name, in hexadecimal. */
  readonly texts: Readonly<Record<string, string>>;
}

/** Reads what the bytes bind. Throws when they are no JSON object. */
export function readBindings(bytes: Buffer): EntryBindings {
  const { kind, about, texts } = JSON.parse(bytes.toString("utf8")) as Partial<EntryBindings>;
  return { ...(about ? { about } : {}), kind, texts: texts ?? {} };
}

/** One step up: from the schema number to the next. Keyed by entry kind; kinds not named stay as they are. */
type Lift = Readonly<Record<string, (body: Record<string, unknown>) => Record<string, unknown>>>;
const LIFTS: readonly Lift[] = [];

/** Reads an entry back, lifted to the newest schema. Throws on a schema that this build does not know. */
export function readEntryBytes<Kind extends SubjectKind>(bytes: Buffer): EntriesOf[Kind] {
  return readEntryBody(JSON.parse(bytes.toString("utf8")) as EntryBody);
}

/** What entry bytes are as JSON. */
export type EntryBody = { readonly schema: number } & Readonly<Record<string, unknown>>;

/** Reads an entry back from the JSON of its bytes. */
export function readEntryBody<Kind extends SubjectKind>(read: EntryBody): EntriesOf[Kind] {
  const { schema, about: _, ...body } = read;
  if (!Number.isInteger(schema) || schema < 1 || schema > SCHEMA) {
    throw new Error(`An entry has schema ${schema}; this build knows 1 to ${SCHEMA}. Start the newer build.`);
  }
  let lifted: Record<string, unknown> = body;
  for (const lift of LIFTS.slice(schema - 1)) lifted = lift[String(lifted["kind"])]?.(lifted) ?? lifted;
  return lifted as unknown as EntriesOf[Kind];
}
