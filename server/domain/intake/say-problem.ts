import type { DateDoubt, Listed, MoneyDoubt, Problem } from "./problem.ts";

const DATE_DOUBTS: Readonly<Record<DateDoubt, string>> = {
  "day or month first": "could be day/month or month/day",
  "two-figure year": "has a year of two figures",
  "a number": "is a spreadsheet's day number",
  "no such day": "is no day of the calendar",
  "not a date": "is not a date",
};
const MONEY_DOUBTS: Readonly<Record<MoneyDoubt, string>> = {
  "point or comma": "could be thousands or cents",
  "below zero": "is below zero",
  "too much": "is more than any piece costs",
  "not an amount": "is not an amount",
};
const LISTED: Readonly<Record<Listed, string>> = {
  place: "place",
  station: "station",
  member: "member number",
  provider: "provider",
  model: "model",
};

/**
 * Says one problem in a sentence and what to do next, for the downloaded file of parked rows and for a screen reader.
 * `header` is the file's own header of the column, where the problem has one.
 */
export function sayProblem(problem: Problem, header: string | undefined): string {
  const at = header === undefined || header.trim() === "" ? "" : `${header.trim()}: `;
  return `${at}${sentence(problem)}`;
}

function sentence(problem: Problem): string {
  switch (problem.code) {
    case "required":
      return "nothing is written. Next: fill it in.";
    case "too-long":
      return `${problem.length} characters, ${problem.most} at most. Next: shorten it or move text to the note.`;
    case "kind-unknown":
      return `"${problem.value}" is no kind in the register. Next: write a kind's name or code, or add the kind first.`;
    case "kind-unclear":
      return `"${problem.value}" may be ${list(problem.mayBe, "or")}. Next: write which.`;
    case "date-unreadable":
      return `"${problem.value}" ${DATE_DOUBTS[problem.why]}. Next: write 2024-03-05, or 2024-03 for a month alone.`;
    case "day-needed":
      return `"${problem.value}" is a month. Next: write the day, as 2024-03-05, or leave it blank.`;
    case "date-ahead":
      return `"${problem.value}" is after today. Next: look at the year.`;
    case "in-service-before-made":
      return `in service ${problem.value}, made ${problem.made}. Next: look at both dates.`;
    case "money-unreadable":
      return `"${problem.value}" ${MONEY_DOUBTS[problem.why]}. Next: write 1234.50.`;
    case "not-a-choice":
      return `"${problem.value}" is none of ${list(problem.choices, "or")}. Next: write one of these.`;
    case "not-in-register":
      return `no ${LISTED[problem.what]} "${problem.value}" in the register. Next: correct it, or add it first.`;
    case "named-twice":
      return `more than one ${LISTED[problem.what]} "${problem.value}" in the register. Next: give them different names.`;
    case "set-without-member":
      return `set "${problem.value}" without a member. Next: write the member number, or leave the set blank.`;
    case "same-in-file":
      return `"${problem.value}" stands also in ${rows(problem.rows)}. Next: keep one of them.`;
    case "in-register-already":
      return `"${problem.value}" is in the register already. Next: open that piece; leave this row out.`;
    case "rows-disagree":
      return `"${problem.value}" here, "${problem.other}" in row ${problem.row}. Next: write the same in both.`;
    case "takes-incomplete":
      return "a layer that is taken needs its kind, and a model or a liner code. Next: fill in both.";
    case "with-parked-row":
      return `${rows(problem.rows)} of the same model is parked. Next: mend that one.`;
    case "cells-beyond-columns":
      return `${problem.cells} cells under ${problem.columns} headers. Next: look for a separator or a quote too many.`;
    default:
      return problem satisfies never;
  }
}

function rows(numbers: readonly number[]): string {
  const shown = numbers.slice(0, 5).join(", ");
  const more = numbers.length > 5 ? ` and ${numbers.length - 5} more` : "";
  return `${numbers.length === 1 ? "row" : "rows"} ${shown}${more}`;
}

function list(names: readonly string[], join: string): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} ${join} ${last}`;
}
