import type { PieceId } from "../ids.ts";

/** Why a date could not be read for sure. */
export type DateDoubt = "day or month first" | "two-figure year" | "a number" | "no such day" | "not a date";

/** One thing that keeps a row out, with its facts. `field` names the column where there is one. */
export type Problem<Field extends string = string> =
  | { readonly code: "required"; readonly field: Field }
  | { readonly code: "too-long"; readonly field: Field; readonly length: number; readonly most: number }
  | { readonly code: "kind-unknown"; readonly field: Field; readonly value: string }
  | {
      readonly code: "kind-unclear";
      readonly field: Field;
      readonly value: string;
      readonly mayBe: readonly string[];
    }
  | {
      readonly code: "date-unreadable";
      readonly field: Field;
      readonly value: string;
      readonly why: DateDoubt;
    }
  | { readonly code: "day-needed"; readonly field: Field; readonly value: string }
  | { readonly code: "date-ahead"; readonly field: Field; readonly value: string }
  | {
      readonly code: "in-service-before-made";
      readonly field: Field;
      readonly value: string;
      readonly made: string;
    }
  | {
      readonly code: "money-unreadable";
      readonly field: Field;
      readonly value: string;
      readonly why: MoneyDoubt;
    }
  | {
      readonly code: "not-a-choice";
      readonly field: Field;
      readonly value: string;
      readonly choices: readonly string[];
    }
  | { readonly code: "not-in-register"; readonly field: Field; readonly value: string; readonly what: Listed }
  | { readonly code: "named-twice"; readonly field: Field; readonly value: string; readonly what: Listed }
  | { readonly code: "set-without-member"; readonly field: Field; readonly value: string }
  | {
      readonly code: "same-in-file";
      readonly field: Field;
      readonly value: string;
      readonly rows: readonly number[];
    }
  | {
      readonly code: "in-register-already";
      readonly field: Field;
      readonly value: string;
      readonly piece: PieceId;
    }
  | {
      readonly code: "rows-disagree";
      readonly field: Field;
      readonly value: string;
      readonly row: number;
      readonly other: string;
    }
  | { readonly code: "takes-incomplete"; readonly field: Field }
  /** Nothing is wrong with this row, but another of the same model is parked, and a model comes in whole. */
  | { readonly code: "with-parked-row"; readonly rows: readonly number[] }
  | { readonly code: "cells-beyond-columns"; readonly cells: number; readonly columns: number };

export type MoneyDoubt = "point or comma" | "below zero" | "too much" | "not an amount";
/** What a name in a cell was looked for among. */
export type Listed = "place" | "station" | "member" | "provider" | "model";

/** A problem with its place in the file: row as a spreadsheet counts it (header = 1), column from 0 where there is one. */
export interface PlacedProblem<Field extends string = string> {
  readonly row: number;
  readonly column?: number;
  readonly problem: Problem<Field>;
}

/** One data row of a file: its number as a spreadsheet shows it, and its cells as they came. */
export interface FileRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/** A row that was read whole. */
export interface ReadRow<Draft> extends FileRow {
  readonly draft: Draft;
}

/** A row that stays out until somebody mends it, with all that is wrong with it. */
export interface ParkedRow<Field extends string = string> extends FileRow {
  readonly problems: readonly PlacedProblem<Field>[];
}

/** What became of all rows of a file. Nothing is dropped but rows without a single filled cell. */
export interface ReadTable<Draft, Field extends string = string> {
  readonly accepted: readonly ReadRow<Draft>[];
  readonly parked: readonly ParkedRow<Field>[];
}
