import type { LocalDate, MadeOn } from "../time.ts";
import { oneLine } from "./fold-cell.ts";
import type { ColumnMapping } from "./map-columns.ts";
import type { Listed, PlacedProblem, Problem } from "./problem.ts";
import { isDay, readDate } from "./read-date.ts";
import type { Found } from "./register-index.ts";

/** Longest text that a field may hold, in characters; a note may be longer. */
export const MOST_CHARACTERS = 200;
export const MOST_NOTE_CHARACTERS = 4000;

/** Reads the cells of one row by field and collects everything that is wrong with it, not only the first thing. */
export interface RowReader<Field extends string> {
  readonly problems: readonly Problem<Field>[];
  readonly add: (problem: Problem<Field>) => void;
  /** The cell as one line, or undefined when nothing is written. */
  readonly text: (field: Field) => string | undefined;
  /** The cell with its line breaks, trimmed. */
  readonly note: (field: Field) => string | undefined;
  readonly required: (field: Field) => string | undefined;
  readonly choice: <Choice extends string>(
    field: Field,
    choices: Readonly<Record<string, Choice>>,
  ) => Choice | undefined;
  readonly dayOrMonth: (field: Field, today: LocalDate) => MadeOn | undefined;
  readonly day: (field: Field, today: LocalDate) => LocalDate | undefined;
  readonly listed: <Id>(field: Field, what: Listed, find: (name: string) => Found<Id>) => Id | undefined;
}

/** Makes a reader for one row. A blank cell and a missing column are the same: unknown. */
export function rowReader<Field extends string>(
  cells: readonly string[],
  mapping: ColumnMapping<Field>,
): RowReader<Field> {
  const problems: Problem<Field>[] = [];
  const add = (problem: Problem<Field>) => void problems.push(problem);
  const cell = (field: Field) => {
    const at: number | undefined = mapping[field];
    return at === undefined ? "" : (cells[at] ?? "");
  };
  const within = (field: Field, value: string, most: number) => {
    if (value.length > most) add({ code: "too-long", field, length: value.length, most });
    return value === "" || value.length > most ? undefined : value;
  };
  const text = (field: Field) => within(field, oneLine(cell(field)), MOST_CHARACTERS);
  const dayOrMonth = (field: Field, today: LocalDate) => {
    const value = text(field);
    if (value === undefined) return undefined;
    const reading = readDate(value);
    if ("doubt" in reading) return add({ code: "date-unreadable", field, value, why: reading.doubt });
    if (reading.date > today) return add({ code: "date-ahead", field, value });
    return reading.date;
  };
  return {
    problems,
    add,
    text,
    note: (field) => within(field, cell(field).trim(), MOST_NOTE_CHARACTERS),
    required: (field) => {
      if (oneLine(cell(field)) === "") add({ code: "required", field });
      return text(field);
    },
    choice: (field, choices) => {
      const value = text(field);
      const key = value?.toLowerCase().replace(/[’`]/g, "'");
      if (value === undefined || key === undefined) return undefined;
      if (Object.hasOwn(choices, key)) return choices[key];
      return add({ code: "not-a-choice", field, value, choices: [...new Set(Object.values(choices))] });
    },
    dayOrMonth,
    day: (field, today) => {
      const date = dayOrMonth(field, today);
      if (date === undefined || isDay(date)) return date;
      return add({ code: "day-needed", field, value: date });
    },
    listed: (field, what, find) => {
      const value = text(field);
      if (value === undefined) return undefined;
      const found = find(value);
      if (typeof found === "object") return found.id;
      return add({ code: found === "none" ? "not-in-register" : "named-twice", field, value, what });
    },
  };
}

/** Puts the problems of a row at their columns. */
export function placeProblems<Field extends string>(
  row: number,
  problems: readonly Problem<Field>[],
  mapping: ColumnMapping<Field>,
): readonly PlacedProblem<Field>[] {
  return problems.map((problem) => {
    const column: number | undefined = "field" in problem ? mapping[problem.field] : undefined;
    return { row, problem, ...(column === undefined ? {} : { column }) };
  });
}
