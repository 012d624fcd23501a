import type { MarkName } from "./stitches.tsx";

/** A reason in text, to be shown by Reasons and read aloud. */
export type SpokenReason = {
  readonly mark: MarkName;
  readonly what: string;
  readonly why?: string | undefined;
  readonly next: string;
};
