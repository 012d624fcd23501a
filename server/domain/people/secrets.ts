import type { Brand } from "../brand.ts";

/** A passphrase in Unicode's composed form, so that it is the same from every keyboard. */
export type Passphrase = Brand<string, "passphrase">;
/** Four to six digits, for changing the person at a bench. */
export type Pin = Brand<string, "pin">;
/** The name that a person signs in with: lower case, one word. */
export type SignInName = Brand<string, "sign-in name">;

export const PASSPHRASE_MIN = 12;
export const PASSPHRASE_MAX = 256;

/**
 * Parses a new passphrase: 12 to 256 characters, any of them, no rules of composition. Returns undefined otherwise.
 * Source: NIST SP 800-63B-4 section 3.1.1 (length, no composition rules, normalised before hashing); 12 is ours.
 */
export function parsePassphrase(text: string): Passphrase | undefined {
  const composed = composePassphrase(text);
  const length = [...composed].length;
  return length >= PASSPHRASE_MIN && length <= PASSPHRASE_MAX ? composed : undefined;
}

/** Brings a passphrase that is tried into the form in which it was kept, whatever its length. */
export function composePassphrase(text: string): Passphrase {
  return text.normalize("NFKC") as Passphrase;
}

/** Parses a PIN of 4 to 6 digits that are not all alike. Returns undefined otherwise. */
export function parsePin(text: string): Pin | undefined {
  return /^\d{4,6}$/.test(text) && new Set(text).size > 1 ? (text as Pin) : undefined;
}

/** Parses a sign-in name: 2 to 64 letters, digits or `. - _ @ +`, folded to lower case. Returns undefined otherwise. */
export function parseSignInName(text: string): SignInName | undefined {
  const folded = text.trim().normalize("NFKC").toLowerCase();
  return /^[\p{L}\p{N}.\-_@+]{2,64}$/u.test(folded) ? (folded as SignInName) : undefined;
}
