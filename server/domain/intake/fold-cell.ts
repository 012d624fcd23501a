/** Returns a cell as one line: trimmed, with each run of white space as one space. Empty when nothing is written. */
export function oneLine(cell: string | undefined): string {
  return (cell ?? "").replace(/\s+/g, " ").trim();
}

/**
 * Folds a header or a name to its words, for comparing: accents and case dropped, words parted by anything that is
 * no letter or digit. "Mfg. Date" gives "mfg date". Letters of any script stay.
 */
export function foldWords(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/['’.]/g, "")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

/** Folds a name as the register compares names: one line in lower case, punctuation kept. */
export function foldName(text: string): string {
  return oneLine(text).toLowerCase();
}
