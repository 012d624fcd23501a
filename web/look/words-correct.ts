/** The fixed words of correcting an entry of a trail. */
export const CORRECT_WORDS = {
  correct: "Correct",
  correctEntry: (number: number) => `Correct entry ${number}`,
  correctsBoth: "The correction is an entry of its own. Both stay on the trail and name each other.",
  whatIsWrong: "What is wrong",
  isWrong: {
    holder: "Where it went",
    time: "When it was",
    entry: "This entry did not happen",
    act: "The whole act did not happen",
  },
  whereItWent: "Where it went in fact",
  findHolder: "Find a place, member or firm",
  noHolder: "Nothing on record is called so. Type part of a name.",
  chosen: (name: string) => `Chosen: ${name}`,
  whenItWas: "When it was in fact",
  why: "Why it is corrected",
  write: "Write the correction",
  written: (number: number) => `Written: the correction of entry ${number}.`,
  needs: "Choose what is right, and say why.",
} as const;
