import type { JobReason } from "../cases/job-record.ts";
import type { FileRefusal } from "../intake/decode-text.ts";

const OTHER = { workbook: "a workbook", "old workbook": "a workbook", PDF: "a PDF", picture: "a picture" };
const NOT_READ = "The file was not read.";

/** Says why a file was not read, and what to do next. Nothing of it was kept in the register. */
export function sayFileRefusal(refusal: FileRefusal): JobReason {
  const { code } = refusal;
  switch (code) {
    case "file-too-large":
      return {
        ...{ code, what: NOT_READ },
        why: `It has ${inMegabytes(refusal.bytes)} MB and ${inMegabytes(refusal.most)} MB is the most.`,
        next: "Split it into files of fewer rows.",
      };
    case "too-many-rows":
      return {
        ...{ code, what: NOT_READ },
        why: `It has more than ${refusal.most} rows.`,
        next: "Split it into files of fewer rows.",
      };
    case "file-empty":
      return {
        code,
        what: NOT_READ,
        why: "It holds nothing.",
        next: "Save the sheet as CSV and choose that file.",
      };
    case "file-of-another-kind":
      return {
        ...{ code, what: NOT_READ },
        why: `It is ${OTHER[refusal.what]}.`,
        next: refusal.what.endsWith("workbook")
          ? "Open it in the spreadsheet program and save the sheet as CSV."
          : "Choose a CSV file.",
      };
    case "file-in-utf-16":
      return {
        ...{ code, what: NOT_READ },
        why: "It is in UTF-16.",
        next: 'Save it as "CSV UTF-8".',
      };
    case "file-binary":
      return {
        ...{ code, what: NOT_READ },
        why: `It is no text: byte ${refusal.at + 1} cannot be part of one.`,
        next: "Choose a CSV file.",
      };
    case "quote-never-closes":
      return {
        ...{ code, what: NOT_READ },
        why: `A quote that opens in row ${refusal.row} never closes.`,
        next: "Look at that row's quotes and save the file again.",
      };
    case "no-header":
      return {
        ...{ code, what: NOT_READ },
        why: "It has no row of headers.",
        next: "Write the headers in the first row, or begin with the template.",
      };
    default:
      return refusal satisfies never;
  }
}

function inMegabytes(bytes: number): string {
  return (bytes / 1_048_576).toFixed(1);
}
