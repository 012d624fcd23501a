/** What is not done, why, and what to do next, in words for a person. `next` begins small: "Next: …" is put before it. */
export interface Phrase {
  readonly what: string;
  readonly why: string;
  readonly next: string;
}

/** What each id is called: "coat liner HJ9V 2939 03KX", "Rack C1", "Corwin Bask". */
export type SubjectNames = Readonly<Record<string, string>>;

/** Names an id, or says plainly that the name is not at hand. */
export function nameOf(names: SubjectNames, id: string): string {
  return names[id] ?? "one that is not named here";
}

/** Says a phrase as one text: "Coat shell … is retired. Since … Next: …." Empty parts are left out. */
export function sayPhrase({ what, why, next }: Phrase): string {
  return [what, why, next && `Next: ${next}.`].filter((part) => part !== "").join(" ");
}

/** Puts a capital at the start of a sentence that begins with a name. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
