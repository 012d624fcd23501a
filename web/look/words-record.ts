/**
 * The fixed words of the record's pages: trail, places, members, search. They stand beside words.ts, in its style; where
 * a word differs by region it is taken from there.
 */
import { countOf, listOf, midSentence, type Words } from "./words.ts";
import { HOLDER_WORDS } from "./words-holders.ts";

export const RECORD_WORDS = {
  askAgain: "Ask again",
  slow: "The server has not answered for 2 seconds. Nothing is lost.",
  asking: (what: string) => `Asking for ${what}.`,
  notShown: "Not shown.",

  trail: "Trail",
  trailSays: "What is on record of this piece. A correction is an entry of its own.",
  trailOf: (kind: string) => `Trail of ${articleOf(kind)}`,
  theTrail: "the trail",
  tagNamed: (number: string) => `Tag ${number.replace(/(.{4})(?=.)/g, "$1 ")}`,
  madeBy: (maker: string) => `Made by ${maker}`,
  madeIn: (when: string) => ` in ${when}`,
  madeOn: (when: string) => ` on ${when}`,
  makerUnknown: "The maker is not recorded",
  labelReading: {
    "not yet read": "Its maker’s label is not yet read.",
    "not legible": "Its maker’s label is not legible.",
  },
  labelModel: (model: string) => `model ${model}`,
  labelLiner: (code: string, isShell: boolean) => `${isShell ? "takes liner" : "liner"} ${code}`,
  labelSize: (size: string) => `size ${size.replaceAll(" ", "\u00a0")}`,
  onRecordSince: (day: string, holder: string) => `On record since ${day}, first ${holder}.`,
  where: {
    member: (name: string, around?: string) => `with ${name}${around ? `, ${around}` : ""}`,
    place: (name: string, around?: string) => `at ${name}${around ? ` in ${around}` : ""}`,
    provider: (name: string) => `with the provider ${name}`,
    outside: (name: string) => `with ${name}, outside the department`,
    "in transit": "in transit",
    "whereabouts unknown": "at a place that nobody knows",
  },
  todayIs: (where: string, since: string) => `Today it is ${where}, since ${since}.`,
  thenWas: (where: string, since: string) => `It was then ${where}, since ${since}.`,
  todayUnknown: (since: string) => `Nobody has recorded where it is since ${since}.`,
  installedIn: (shell: string, isThen: boolean) => `It ${isThen ? "was" : "is"} installed in ${shell}.`,
  retiredOn: (day: string) => `It was retired on ${day}.`,
  belongsToSet: (who: string, set: string, isThen: boolean) =>
    `It ${isThen ? "belonged" : "belongs"} to ${who}, ${set}.`,
  entriesChecked: (entries: number, when: string) =>
    entries === 1
      ? `1 entry, not changed since it was written (checked ${when}).`
      : `${entries} entries, none changed since it was written (checked ${when}).`,
  changedHead: (changed: number) => `${countOf(changed, "thing is", "things are")} not as written.`,
  actAt: (position: number) => `the act at position ${position}`,
  changedSays: (which: string) =>
    `${which}. Next: tell the program manager, and have the record verified before you rely on this page.`,
  entriesThen: (entries: number) => `${countOf(entries, "entry", "entries")} then.`,

  whereSince: (kind: string, since: string) =>
    `Where this ${kind} has been since ${since}. The entries below say the same.`,
  now: "now",
  nowAt: (name: string) => `${name}, now`,
  laneOf: {
    member: "With a member",
    place: "At a place",
    provider: "At a provider",
    outside: "Outside",
    "in transit": "In transit",
    "whereabouts unknown": "Not recorded",
  },
  laneIn: (place: string) => `In ${place}`,
  wasIn: "What it was in",
  wasHeld: "What was in it",
  fittingsCaption: "Fittings, oldest first",
  stillThere: "now",
  noStays: "No stay is on record at that position.",

  whatWasDone: {
    "newest first": "What was done, newest first",
    "oldest first": "What was done, oldest first",
  },
  noEntry: "no entry",
  entryNumber: (version: number) => `entry ${version}`,
  tagEntryNumber: (version: number, tag: string) => `entry ${version} of tag ${tag}`,
  layerEntryNumber: (version: number, layer: string) => `entry ${version} of the ${layer}`,
  toDay: (from: string, to: string) => `${from} to ${to}`,
  gapVerb: "Not recorded.",
  gapSays: (length: string) =>
    `Nobody wrote down who had it for ${length}. A trace lists this gap as “cannot exclude”.`,
  writtenOn: (when: string, later: string) => `Written down ${when}, ${later} later.`,
  correctedBy: (version: number) => `Corrected by entry ${version}. Both stay.`,
  noteWithdrawn: "The note was withdrawn.",
  note: (text: string) => `Note: “${text}”`,
  stopMark: "labels differ",
  holdMark: "hold",
  gapMark: "time without a record",

  letPass: {
    "outfit-lacks": "not a full outfit",
    "labels-not-read": "a label not yet read",
    "labels-accepted": "a combination that the maker or a provider accepts",
    "labels-by-eye": "labels compared by eye",
    "loose-layer": "a layer that is in no shell",
  } as Readonly<Record<string, string>>,
  layer: {
    installed: "Installed",
    foundFitted: "Found fitted",
    separated: "Separated",
    byEye: "Labels compared by eye",
    inIt: (layer: string, verdict: string) => `${layer} in it: ${verdict}`,
    takenOut: (layer: string) => `${layer} taken out`,
    with: (layer: string, who?: string) => `with ${layer}${who ? `, by ${who}` : ""}`,
    of: (layer: string, rest: string) => (rest ? `${layer}: ${rest}` : layer),
  },
  verdicts: {
    match: "labels match",
    accepted: "accepted",
    differs: "differs",
    "cannot-tell": "cannot tell",
    "not-read": "not yet read",
  },

  move: {
    purpose: (purpose: string) => `Purpose: ${purpose}.`,
    condition: (condition: string) => `Condition: ${condition}.`,
    releasedBy: (who: string) => `Released by ${who}.`,
    receivedBy: (who: string) => `Received by ${who}.`,
    fitSeen: (who: string) => `Fit on the wearer: seen by ${who}.`,
    fitNotRecorded: "Fit on the wearer: not recorded.",
    document: (text: string) => `Document: ${text}.`,
    despite: (what: readonly string[]) => `Let pass, and said: ${listOf(what)}.`,
  },

  knownHead: "As the record was known",
  knownThen: "Not as known now.",
  knownPosition: "Position in the record",
  knownNote: "Each act has a position; the day sheet and every export show it.",
  knownShow: "Show as known then",
  knownNow: "Show as known now",
  knownSays: (position: string, when: string) =>
    `This is what was known at position ${position}, recorded ${when}. What was recorded later is left out.`,
  knownNotNumber: "A position is a whole number from 1.",

  printedOn: (when: string) => `Printed ${when}.`,
  printedPosition: (position: string) => `Its newest entry stands at position ${position} of the record.`,
  printedThen: (position: string) => `As known at position ${position} of the record.`,

  ...HOLDER_WORDS,

  find: "Find gear",
  findSays: "Type a tag number, or say what you know. Nothing changes.",
  theGear: "the gear",
  findText: "Tag, serial, member, place, model or size",
  findHint: "C7K3 F92C XTKK",
  findNow: "Find",
  more: "Show more",
  moreFilters: "More fields",
  kind: "Kind",
  anyKind: "Any kind",
  holder: "Is with",
  holderNote: "A place or member, as named here.",
  holderUnknown: "No one place or member has that name. Choose one that is proposed.",
  ofMember: "Of a member",
  ofMemberNote: "Has it, or it belongs to their use.",
  memberUnknown: "No one member has that name or number. Choose one that is proposed.",
  anyModel: "Any model",
  state: "State",
  anyState: "Any state",
  states: {
    "in use": "Not retired",
    "on hold": "On hold",
    soiled: "Soiled",
    "label not read": "Label not yet read",
    "not tagged": "Without a live tag",
    "in transit": "In transit",
    "whereabouts unknown": "Whereabouts unknown",
    retired: "Retired",
  },
  lastSeenBefore: "Not seen since",
  lastSeenBeforeNote: "Neither scanned nor moved from this day on.",
  rowsShown: (count: number, more: boolean) =>
    more ? `First ${count} pieces` : countOf(count, "piece", "pieces"),
  nothingFound: "No piece fits.",
  nothingFoundNext: "Take something out of the search, or scan its tag.",
  notSearched: "Nothing searched yet.",
  notSearchedNext: "Fill one field and press Find. A scan opens the piece at the bench.",
  column: {
    piece: "Piece",
    tag: "Tag",
    from: "From",
    until: "Until",
    labels: "Labels",
    label: "Label",
    with: "With",
    since: "Since",
    belongsTo: "Belongs to",
    state: "State",
    lastSeen: "Last seen",
  },
  notSeen: "never",
  serial: (serial: string) => `serial ${serial}`,
  lastSeen: (when: string) => `last seen: ${when}`,
} as const;

export type RecordWords = typeof RECORD_WORDS;

/** Says a role of an account as the screens do. A role that is not known is said as it came. */
export function roleWord(role: string, say: Words): string {
  const known: Readonly<Record<string, string>> = {
    technician: say.technician,
    inspector: say.inspector,
    "program manager": say.programManager,
    "company officer": say.companyOfficer,
    member: say.member,
    reader: say.reader,
  };
  return known[role] ?? role;
}

/** Puts "a" or "an" before the name of a kind. */
function articleOf(name: string): string {
  return `${/^[aeio]/i.test(name) ? "an" : "a"} ${midSentence(name)}`;
}
