/** Answers to scans that open no piece straight away: what it is, what is kept, what to do next. Plain data in, text out. */
import type { SpokenReason } from "./spoken-reason.ts";
import type { Words } from "./words.ts";

export type Suggested = {
  readonly number: string;
  readonly title?: string | undefined;
  readonly where?: string | undefined;
};

/** Says that check symbols do not hold, and what was perhaps meant: a suggestion is compared, never taken. */
export function sayMisread(suggestions: readonly Suggested[]): SpokenReason {
  const what = "This number cannot be: check symbols do not hold.";
  if (suggestions.length === 0)
    return { mark: "cannot-tell", what, next: "scan it again, or type it again." };
  const meant = suggestions
    .map((one) => [one.number, one.title, one.where].filter(Boolean).join(", "))
    .join("; or ");
  return {
    mark: "cannot-tell",
    what,
    why: `Did you mean ${meant}?`,
    next: "compare, then confirm or type again.",
  };
}

/** Says that a well-formed number is not in the register. */
export function sayUnknownNumber(number: string, words: Words, host?: string): SpokenReason {
  return {
    mark: "cannot-tell",
    what: words.notInRegister,
    why: host ? `${number} is well formed and names ${host}.` : `${number} is well formed.`,
    next: "register the piece, or scan the maker’s label again.",
  };
}

/** Says that a code is none of ours; it is kept with the scan. */
export function sayForeign(text: string): SpokenReason {
  return {
    mark: "cannot-tell",
    what: "Not a tag of this department.",
    why: `It reads ${text}; kept with this scan.`,
    next: "scan the Layertrail tag, or add this code to a piece.",
  };
}

/** Says that a tag is on no piece: reserved, printed and not yet fixed, or void. */
export function sayUnattached(
  number: string,
  state: "reserved" | "printed" | "void",
  meantFor?: string,
): SpokenReason {
  if (state === "void") {
    return {
      mark: "differs",
      what: `Tag ${number} is void.`,
      next: "scan another tag of this piece, or take a new one.",
    };
  }
  return {
    mark: "not-read",
    what: `Tag ${number} is on no piece yet.`,
    why: meantFor ? `It was printed for ${meantFor}.` : undefined,
    next: "fix it to the piece, then scan the piece and the tag.",
  };
}

/** Says that an older tag was scanned and that its piece is shown all the same. */
export function sayReplacedTag(state: "superseded" | "lost" | "destroyed", when: string): string {
  const ended = {
    superseded: "was replaced",
    lost: "was recorded as lost",
    destroyed: "was recorded as destroyed",
  }[state];
  return `This tag ${ended} on ${when}. The piece is shown.`;
}
