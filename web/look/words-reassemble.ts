/** Fixed words of the screens: putting garments together after the wash. Gathered in words.ts. */
import { countOf, listOf } from "./say-lists.ts";

export const REASSEMBLE_WORDS = {
  verb: "Reassemble",
  second: "Scan a shell, then its liner and DRD. Labels that match are written at once.",
  layOut: "Lay out to reassemble",
  layOutSecond: "Each scan shows where the piece goes. Nothing is written.",
  layOutHint: "Scan what lies on the bench in any order. The screen says which goes in which.",
  startInstalling: "Install now",

  nothingLies: "Nothing is laid out yet.",
  nothingLiesNext: "Scan shells, liners and DRDs in any order.",
  nothingOpen: "No shell is open.",
  nothingOpenNext: "Scan a shell. Then scan what goes in it.",
  asking: "The record is being read.",

  head: (complete: number, shells: number) =>
    `${complete} of ${countOf(shells, "shell gets all its", "shells get all their")} layers`,
  headDone: (done: number, shells: number) => `${done} of ${countOf(shells, "shell", "shells")} reassembled`,
  whichInWhich: "Which goes in which",
  shellColumn: "Shell",
  goesInColumn: "What goes in it",
  goesInHere: (shell: string) => `Goes in ${shell}`,
  goesIn: "goes in",
  by: {
    "in place": "installed",
    own: "its own",
    matched: "labels match",
    accepted: "accepted",
  },
  nothingGoes: "nothing here goes in",

  staysOver: "Stays over",
  wouldHelp: "What would help",
  barred: "May not be installed",
  barredSays: "It is retired, or held as evidence.",
  others: "Not for reassembling",
  othersSay: "It is no shell and no layer.",
  why: {
    "nothing-here": (what: string) => `No ${what} lies here for it.`,
    "labels-stop": (best: string, partner: string) => `The nearest is ${partner}: ${best}.`,
    "partners-taken": (what: string) => `Every ${what} that it goes with has its own already.`,
  },
  ownShellAway: (shell: string, where: string) => `Its own shell is ${shell}, ${where}.`,
  ownLayerAway: (layer: string, where: string) => `Its own is ${layer}, ${where}.`,
  fittedIn: (shell: string) => `fitted in ${shell}`,
  lastSeen: (when: string, where: string) => `last seen ${when}, ${where}`,
  washedWith: (places: readonly string[]) => `washed with pieces that are now at ${listOf(places)}`,
  withHolder: (holder: string) => `with ${holder}`,
  completes: (layer: string, shell: string) => `${layer} completes ${shell}.`,
  passesOn: (layer: string, own: string, shell: string) =>
    `${layer} belongs in ${own}. What is planned there then completes ${shell}.`,

  tangled: "These went home in the wrong shells",
  tangledSays: (count: number) => `${countOf(count, "step sets", "steps set")} all right, and fewer do not.`,
  takeOut: (layer: string, shell: string) => `Take ${layer} out of ${shell}.`,
  putIn: (layer: string, shell: string) => `Put ${layer} in ${shell}.`,
  separateAll: (count: number) => `Record ${countOf(count, "layer", "layers")} as taken out`,
  separated: (count: number) => `${countOf(count, "layer", "layers")} separated`,
  notSeparated: "Not separated.",
} as const;
