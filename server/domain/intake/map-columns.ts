import type { Column } from "./columns.ts";
import { foldWords } from "./fold-cell.ts";

/** Which column of a file holds which field, counted from 0. A field that is absent is not in the file. */
export type ColumnMapping<Field extends string> = { readonly [Each in Field]?: number };

/** What the caller says about fields: the column that holds it, or null for none, whatever its header. */
export type MappingOverrides<Field extends string> = { readonly [Each in Field]?: number | null };

export interface MappedColumns<Field extends string> {
  readonly mapping: ColumnMapping<Field>;
  /** Columns of the file that hold no field and are not read. */
  readonly unused: readonly number[];
  /** Required fields without a column: nothing can be read before they have one. */
  readonly missing: readonly Field[];
  /** Fields that further columns seem to mean too; the first stands until the caller says otherwise. */
  readonly contested: readonly { readonly field: Field; readonly columns: readonly number[] }[];
}

/**
 * Guesses from the headers which column holds which field, and lets the caller's word override each guess.
 * A header that equals a known one goes before one that only holds it ("Mfg Date (label)"); of those the longest known
 * header wins; a column holds one field. An override out of range is left out as if the field had no column.
 */
export function mapColumns<Field extends string>(
  headers: readonly string[],
  columns: readonly Column<Field>[],
  overrides: MappingOverrides<Field> = {},
): MappedColumns<Field> {
  const folded = headers.map(foldWords);
  const mapping: { [Each in Field]?: number } = {};
  const taken = new Set<number>();
  const contested = new Map<Field, number[]>();
  const put = (field: Field, at: number) => {
    mapping[field] = at;
    taken.add(at);
  };
  for (const { field } of columns) {
    const at = overrides[field];
    if (typeof at === "number" && at >= 0 && at < headers.length && !taken.has(at)) put(field, at);
  }
  const open = columns.filter(({ field }) => overrides[field] === undefined);
  for (const { field, at } of candidates(folded, open)) {
    if (taken.has(at)) continue;
    const before = mapping[field];
    if (before === undefined) put(field, at);
    else {
      taken.add(at);
      contested.set(field, [...(contested.get(field) ?? [before]), at]);
    }
  }
  const held = new Set(Object.values<number | undefined>(mapping));
  return {
    mapping,
    unused: headers.flatMap((_, at) => (held.has(at) ? [] : [at])),
    missing: columns
      .filter(({ field, isRequired }) => isRequired && mapping[field] === undefined)
      .map(({ field }) => field),
    contested: [...contested].map(([field, at]) => ({ field, columns: at })),
  };
}

interface Candidate<Field> {
  readonly field: Field;
  readonly at: number;
  readonly isExact: boolean;
  readonly length: number;
}

/** All pairs of a column and a field that its header may mean, the surest first. */
function candidates<Field extends string>(
  folded: readonly string[],
  columns: readonly Column<Field>[],
): readonly Candidate<Field>[] {
  const found: Candidate<Field>[] = [];
  folded.forEach((header, at) => {
    for (const { field, header: own, alsoCalled } of columns) {
      const fits = [foldWords(own), ...alsoCalled].filter((name) => holdsWords(header, name));
      const length = Math.max(0, ...fits.map((name) => name.length));
      if (length > 0) found.push({ field, at, isExact: fits.includes(header), length });
    }
  });
  const rank = (candidate: Candidate<Field>) => (candidate.isExact ? 1000 : candidate.length);
  return found.sort((a, b) => rank(b) - rank(a) || a.at - b.at);
}

function holdsWords(header: string, name: string): boolean {
  return ` ${header} `.includes(` ${name} `);
}
