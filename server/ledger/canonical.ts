import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/** What entry bytes may hold: no floats, so that a number reads the same in every program. */
export type LedgerValue =
  | string
  | number
  | boolean
  | null
  | readonly LedgerValue[]
  | { readonly [name: string]: LedgerValue | undefined };

/**
 * Writes a value as canonical JSON (RFC 8785) in UTF-8. Members that are undefined are left out.
 * Throws on a number that is not a safe integer, and on lone surrogates: both are broken assumptions.
 */
export function canonicalBytes(value: LedgerValue): Buffer {
  assertPlain(value);
  const text = canonicalize(value);
  if (text === undefined) throw new Error("Nothing to write: the value is undefined.");
  return Buffer.from(text, "utf8");
}

function assertPlain(value: LedgerValue | undefined): void {
  if (typeof value === "number" && !Number.isSafeInteger(value)) {
    throw new Error(`Ledger bytes hold integers only, not ${value}.`);
  }
  if (typeof value === "object" && value !== null) for (const part of Object.values(value)) assertPlain(part);
}

export function sha256(...parts: readonly (Buffer | string)[]): Buffer {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest();
}
