/** What the phrases need from their caller: names for ids, and the shape of a reason in text. */
import type { MarkName } from "./stitches.tsx";
import type { Words } from "./words.ts";

/** Puts names to what a refusal speaks of. Each answers with words for a sentence. */
export type Speaker = {
  readonly words: Words;
  /** "Coat shell C7K3 F92C XTKK": title and number. */
  readonly piece: (id: string) => string;
  /** "on Rack C1", "with Corwin Bask": where it is now. */
  readonly where: (id: string) => string;
  readonly person: (id: string) => string;
  /** "Rack B2", "Corwin Bask", "in transit". */
  readonly holder: (holder: HolderFacts) => string;
  /** "a program manager", "an inspector": who lifts a hold of this kind. */
  readonly lifts: (hold: string) => string;
  /** "12 Nov", "today, 10:14": a moment given in ms. */
  readonly when: (at: number) => string;
  /** "DRD", "coat liner": a kind's code. */
  readonly kind: (code: string) => string;
};

export type HolderFacts = { readonly kind: string; readonly id?: string | undefined };

/** A reason in text, to be shown by Reasons and read aloud. */
export type SpokenReason = {
  readonly mark: MarkName;
  readonly what: string;
  readonly why?: string | undefined;
  readonly next: string;
};
