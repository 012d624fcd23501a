/** How two written codes relate: `unclear` when they differ in hyphens and spaces alone. */
export type CodeRelation = "same" | "differs" | "unclear";

/** Returns the text trimmed, or undefined when nothing is written: a blank is unknown, never a value. */
export function written(text: string | undefined): string | undefined {
  const trimmed = text?.trim();
  return trimmed === "" ? undefined : trimmed;
}

/**
 * Tells whether two names are the same letters and digits, whatever their case, spaces and punctuation:
 * "Men's" and "MENS", "Tarnholt, Inc." and "TARNHOLT INC". Never a shorter or a similar name.
 */
export function isSameName(one: string, other: string): boolean {
  return foldName(one) === foldName(other);
}

/**
 * Compares two liner or model codes: case and the kind of separator do not count; whether there is one does.
 * "LK-2" and "lk 2" are the same, "LK-2" and "LK2" are unclear, "LK-2" and "LK-3" differ. Symmetric.
 */
export function compareCodes(one: string, other: string): CodeRelation {
  if (foldCode(one) === foldCode(other)) return "same";
  return foldName(one) === foldName(other) ? "unclear" : "differs";
}

function foldName(text: string): string {
  const upper = text.normalize("NFC").toUpperCase();
  const bare = upper.replace(/[^\p{L}\p{N}]/gu, "");
  return bare === "" ? upper.trim() : bare;
}

function foldCode(text: string): string {
  return text
    .normalize("NFC")
    .toUpperCase()
    .trim()
    .replace(/[\s\u2010-\u2015\u2212-]+/g, "-");
}
