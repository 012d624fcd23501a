import type { Separator } from "../domain/intake/csv-write.ts";

const SEPARATORS: readonly Separator[] = [",", ";", "\t"];
/** Records that are looked at; a header and a few rows tell as much as a whole file. */
const MOST_RECORDS = 25;

export interface SniffedSeparator {
  readonly separator: Separator;
  /** Characters of a first line "sep=;" that some spreadsheets write; it is no row. */
  readonly skip: number;
}

/**
 * Tells which separator parts a text: the one a first line "sep=;" names, else the one that gives the header the
 * most columns among those that give most rows as many columns as the header. A comma when none parts anything.
 */
export function sniffSeparator(text: string): SniffedSeparator {
  const named = /^"?sep=([,;\t])"?(?:\r\n|\n|\r)/i.exec(text);
  if (named) return { separator: SEPARATORS.find((each) => each === named[1]) ?? ",", skip: named[0].length };
  const scored = SEPARATORS.map((separator) => {
    const counts = countColumns(text, separator);
    const header = counts[0] ?? 1;
    const alike = counts.filter((count) => count === header).length / Math.max(1, counts.length);
    return { separator, score: header > 1 ? header * alike : 0 };
  });
  const best = scored.reduce((one, other) => (other.score > one.score ? other : one));
  return { separator: best.separator, skip: 0 };
}

/** Counts the columns of the first filled records, outside quotes. */
function countColumns(text: string, separator: Separator): readonly number[] {
  const counts: number[] = [];
  let columns = 1;
  let isQuoted = false;
  let isEmpty = true;
  for (let at = 0; at < text.length && counts.length < MOST_RECORDS; at++) {
    const sign = text[at];
    if (sign === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (sign === separator) columns++;
    else if (sign === "\n" || sign === "\r") {
      if (!isEmpty) counts.push(columns);
      columns = 1;
      isEmpty = true;
      continue;
    }
    isEmpty = false;
  }
  if (!isEmpty && counts.length < MOST_RECORDS) counts.push(columns);
  return counts;
}
