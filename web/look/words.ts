/**
 * Every fixed word of the screens, in a US and an international set. Short main clauses, present tense; the piece is
 * the subject. Sentences about verdicts and refusals are built from these in verdict-phrases.ts and refusal-phrases.ts.
 */
export type Region = "US" | "international";

const US = {
  menu: "Menu",
  changeMode: "Change mode",
  close: "Close",
  next: "Next:",
  stopped: "Stopped.",

  lookUp: "Look up",
  lookUpSecond: "The next scan shows the piece. Nothing changes.",
  backToLookUp: "Back to Look up. The next scan shows the piece. Nothing changes.",
  transfer: "Transfer",
  transferTo: (place: string) => `Transfer to ${place}`,
  turnIn: "Turn in",
  turnInFrom: (who: string) => `Turn in from ${who}`,
  turnInSoiled: "Turn in, soiled",
  issue: "Issue",
  issueTo: (who: string) => `Issue to ${who}`,
  installLiner: "Install liner",
  installDrd: "Install DRD",
  separate: "Separate",
  attachTag: "Attach tag",
  asFound: "As found",
  collects: "Each scan adds a piece to the tray. Nothing is written until you confirm.",
  stoppedInstall: "Stopped. Scan another liner for this shell, or clear the tray.",
  installFirst: "Scan the shell, then the liner that goes in.",
  separateSecond: "Scan a garment. Its layers come out when you confirm.",
  attachFirst: "Scan the piece or its old tag, then the new tag.",
  asFoundSecond: "Each scan records where the piece is. Nothing is refused.",

  install: "Install liner or DRD",
  installSecond: "Scan the shell, then its liner or DRD. Labels that match are written at once.",
  attachSecond: "Scan the new label on the piece. It goes live once it was read back.",
  asFoundWith: (who: string) => `As found: ${who}`,
  recordWash: "Record a wash",
  turnInSoiledSecond: "Each scan adds a piece to the tray. What is turned in soiled awaits wash.",
  cardFirst: {
    place: "Scan a place card, or choose the place. Then scan pieces.",
    member: "Scan a member card, or choose the member. Then scan pieces.",
    holder: "Scan the card of the place or member where the pieces are.",
  },

  scanOrType: "Scan, or type a tag",
  scanOtherLiner: "Scan the other liner",
  scanATag: "Scan a tag",
  scanAnotherLiner: "Scan another liner",
  typeATag: "Type a tag",
  tagNumber: "Tag number",
  lastAct: "Last act",
  correctIt: "Correct it",
  clear: "Clear",
  clearTray: "Clear the tray",
  confirm: "Confirm",

  wholeTrail: "Whole trail",
  printRecord: "Print record",
  printTrail: "Print this trail",
  oldestFirst: "Oldest first",
  newestFirst: "Newest first",
  recordWord: "Record a maker’s word",
  whereItHasBeen: "Where it has been",
  whatWasDone: "What was done, newest first",
  lastActs: "Last acts",
  notRecorded: "Not recorded",
  writtenLater: "written down later",
  correction: "correction",

  it: "it",
  yes: "Yes",
  no: "No",
  alsoSaid: "Also",
  soiled: "Soiled",
  soiledSays: "It awaits wash and cannot be issued.",
  retired: "Retired",
  retiredSays: "It is not issued again.",
  looseLayer: "It is not in a shell.",
  notAtAPlace: "It is not at a place of the department.",
  comparedByEye: "labels compared by eye",
  cap: (text: string) => text.charAt(0).toUpperCase() + text.slice(1),
  holdKind: {
    differs: "Differs",
    finding: "Finding",
    contamination: "Contamination",
    lost: "Lost",
    "makers notice": "Maker’s notice",
    evidence: "Evidence",
    identify: "Identify",
  },
  holdLiftedBy: {
    differs: "It ends when the two are separated.",
    finding: "An inspector lifts it.",
    contamination: "The program manager lifts it.",
    lost: "An inspector lifts it.",
    "makers notice": "The program manager lifts it.",
    evidence: "Only the program manager lifts it.",
    identify: "A technician lifts it.",
  },

  trayLabel: "Tray",
  takeOff: "Take off",
  confirmWrites: "Confirm writes them as one act, all or none.",
  notReadyHead: (count: number) => `${countOf(count, "piece is", "pieces are")} not ready`,
  setPart: "Not a full outfit",
  nothingStops: (count: string) =>
    `${count}. Nothing differs, nothing is held. What cannot be computed is not in this.`,
  withoutThese: (kinds: readonly string[]) => `Without: ${listOf(kinds)}. This does not stop the issue.`,
  nothingToCompare: "There are no labels to compare here.",
  ownLayer: (layer: string) => `On record in this shell: ${layer}`,
  matchSays: "The labels say the same. That is no inspection, and says nothing of the fit on the wearer.",
  matchByEye: "An inspector compared the labels by eye. What was not read stays marked.",

  tooManyScans:
    "More scans wait than the bench keeps. Wait for the answers, then scan the last pieces again.",
  takenBack: "Taken back at the bench.",
  tookBack: (what: string) => `taken back: ${what}`,
  notTakenBack: "Not taken back.",
  notInstalled: "Not installed.",
  notWrittenFor: (mode: string) =>
    mode === "issue"
      ? "Not issued."
      : mode === "transfer" || mode === "turn in"
        ? "Not moved."
        : "Not written.",
  lacksSomething: "has no place or member yet.",
  scanItsCard: "scan the card of the place or member, or choose it.",
  tagAttached: (number: string) => `tag ${number.replace(/(.{4})(?=.)/g, "$1 ")} attached and read back`,
  tagNotAttached: "Not attached.",
  writtenSay: "Written:",
  isAlreadyHere: "is on the tray already.",
  nothingRead: "The scan holds no text.",
  scanAgain: "scan it again.",
  notYours: "The number is on record, and is not of your gear.",
  askTheCage: "ask the gear cage.",

  holdCamera: "Hold the tag flat inside the corners, a hand’s breadth away.",
  stoppedNext: "Read the reasons, then scan on or clear the tray.",
  nothingScanned: "Nothing scanned yet.",
  scanFirst: "Scan a tag, or type its number. The piece shows here.",
  tagEnded: (state: string, when?: string, by?: string) =>
    `${state === "superseded" ? "This tag was replaced" : `This tag is recorded as ${state}`}${when ? `, ${when}` : ""}${by ? `, by ${by.replace(/(.{4})(?=.)/g, "$1 ")}` : ""}. The piece is shown.`,
  reason: "reason",
  reasons: "reasons",
  fitOnWearer: "Fit on the wearer",
  fitNotRecorded: "Not recorded",
  fitSeen: "Seen by me",
  takeItBack: "Take it back",
  confirmBlocked: (verb: string, count: number) =>
    `${verb.split(" ")[0]}: ${countOf(count, "reason", "reasons")}`,
  confirmWords: (mode: string, pieces: string) =>
    ({
      transfer: `Transfer ${pieces}`,
      "turn in": `Turn in ${pieces}`,
      issue: `Issue ${pieces}`,
      separate: `Separate ${pieces}`,
      washed: `Record wash of ${pieces}`,
      "as found": `Record ${pieces} as found`,
    })[mode] ?? pieces,
  typing: (typed: {
    readonly shown: string;
    readonly code: string;
    readonly count?: number;
    readonly of?: number;
  }) =>
    typed.code === "holds"
      ? `${typed.shown}: the check symbols hold.`
      : typed.code === "does not hold"
        ? `${typed.shown}: the check symbols do not hold. Compare it once more.`
        : `${typed.shown}, ${typed.count} of ${typed.of}`,
  transferHint: "Moves pieces to a place of the department.",
  turnInHint: "Takes pieces back, not soiled.",
  issueHint: "Hands pieces to a member, after a check of the whole set.",
  washHint: "Records that pieces were washed, shells apart from liners.",
  findPlace: "Find a place",
  findMember: "Find a member",

  isMissing: "missing",
  isIn: "In",

  signIn: "Sign in",
  signInSays: "Layertrail keeps the record of the department’s gear.",
  signInName: "Sign-in name",
  signInNameNote: "Small letters, figures, dots and hyphens.",
  passphrase: "Passphrase",
  passphraseNote: "At least 12 characters. Several words are easy to keep in mind.",
  passphraseAgain: "Passphrase once more",
  passphraseUnequal: "The two are not the same. Type it again.",
  pin: "PIN",
  pinNote: "4 to 6 figures, for a shared bench with your badge. You can add it later.",
  yourName: "Your name",
  join: "Join",
  linkVerb: {
    "first manager": "Begin as program manager",
    join: "Join",
    "new passphrase": "Choose a new passphrase",
  },
  linkSays: "The link is used once.",
  isAtTheBench: (name: string) => `${name} is at the bench`,
  turnInOnly: "Turn in only, without PIN",
  changePerson: "Change person",
  back: "Back",
  signOut: "Sign out",
  signedOut: "Signed out.",
  darkOrLight: "Dark or light",
  sound: "Sound",
  on: "On",
  off: "Off",
  bench: "Bench",
  find: "Find gear",
  registerGear: "Register gear",
  bringIn: "Bring in a list",
  printTags: "Print tags",
  printCards: "Print cards",
  modelTable: "Model table",
  places: "Places",
  members: "Members",
  people: "People",
  settings: "Settings",
  nowhere: "There is no such page.",
  nowhereNext: "Open the menu, or scan a tag at the bench.",
  cautionsHead: "What a scan does not say",
  cautions: [
    "The department’s procedure comes first, then the edition that it adopted, then the maker’s instructions.",
    "A scan tells which piece it is, not whether it protects. Labels that match are no inspection.",
    "Labels do not tell that a garment fits its wearer.",
    "A missing, wrong or unread liner or DRD keeps a garment out of service until a trained person decides.",
    "Added tags can count as an alteration: get the maker’s approval for material, place and fixing.",
  ],

  asSystem: "As the system",
  light: "Light",
  dark: "Dark",
  badgeOnly: "badge alone: turn-in only",
  ownSecrets: "Own passphrase and PIN",

  thisPiece: "this piece",
  noTag: "no live tag",
  labelIs: (reading: string) => `Label ${reading}`,
  withHolder: "With",
  belongsTo: "Belongs to",
  dueNext: "Due next",
  holds: "Holds",
  none: "None",
  ready: "Ready to issue",
  notReady: "Not ready to issue",
  lastSeen: "Last seen",
  conditionAtIssue: "Condition at issue",
  receivedBy: "Received by",
  conditionNew: "New",
  conditionUsed: "Used, no finding",
  conditionFindings: "Used, findings on record",

  shell: "Shell",
  liner: "Liner",
  drd: "DRD",
  coat: "Coat",
  pants: "Pants",
  pantsShell: "Pants shell",
  pantsLiner: "Pants liner",
  coatShell: "Coat shell",
  coatLiner: "Coat liner",

  garment: "Garment",
  maker: "Maker",
  linerCode: "Liner code",
  model: "Model",
  size: "Size",
  pattern: "Pattern",
  made: "Made",
  notCompared: "not compared",
  theSame: "the same",
  takes: (value: string) => `takes ${value}`,
  is: (value: string) => `is ${value}`,
  unknown: "not recorded",

  match: "labels match",
  accepted: "accepted",
  differs: "differs",
  cannotTell: "cannot tell",
  notRead: "not yet read",
  notScanned: "not scanned",

  setComplete: "Set is complete",
  trayEmpty: "The tray is empty.",
  trayEmptyNext: "Scan a coat, a liner, any piece.",
  onHold: "On hold",
  askingFor: (number: string) => `Asking for ${number}.`,
  slowServer: "The server has not answered for 2 seconds. Scan on; nothing is lost.",
  notWritten: "Not written.",
  trayKept: "The tray is kept.",
  notInRegister: "This tag is not in the register.",
  noNetwork: (since: string) => `No network since ${since}.`,
  actsKept: (count: number) =>
    `${countOf(count, "act is", "acts are")} kept on this tablet and will be sent when it is back.`,
  alreadyHere: "already here",

  technician: "technician",
  inspector: "inspector",
  programManager: "program manager",
  companyOfficer: "company officer",
  member: "member",
  reader: "reader",
} as const;

/** The same keys whatever the region; texts and makers of texts are replaced one for one. */
export type Words = {
  readonly [K in keyof typeof US]: (typeof US)[K] extends string
    ? string
    : (typeof US)[K] extends readonly string[]
      ? readonly string[]
      : (typeof US)[K];
};

const ABROAD: readonly (readonly [RegExp, string])[] = [
  [/\bpants\b/g, "trousers"],
  [/\bPants\b/g, "Trousers"],
  [/\bprogram manager\b/g, "programme manager"],
  [/\bProgram manager\b/g, "Programme manager"],
];

/** Says every word, made sentence, list and table of a set in the words of a region: none can be forgotten. */
function setAbroad<Value>(value: Value): Value {
  if (typeof value === "string") return inRegion(value, "international") as Value;
  if (typeof value === "function") {
    const make = value as unknown as (...facts: unknown[]) => unknown;
    return ((...facts: unknown[]) => setAbroad(make(...facts))) as Value;
  }
  if (Array.isArray(value)) return value.map(setAbroad) as Value;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, said]) => [key, setAbroad(said)])) as Value;
}

const SETS: Record<Region, Words> = { US, international: setAbroad<Words>(US) };

/** Gives the set of words of a region. */
export function words(region: Region): Words {
  return SETS[region];
}

/** Says a sentence that was built with US words in the words of a region, for names that come from the register. */
export function inRegion(text: string, region: Region): string {
  if (region === "US") return text;
  return ABROAD.reduce((said, [word, other]) => said.replace(word, other), text);
}

/** Says how many: "1 piece", "9 pieces". */
export function countOf(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

const SMALL = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** Says a number up to ten as a word, larger ones in numerals: "two", "14". */
export function numberWord(count: number): string {
  return SMALL[count] ?? String(count);
}

/** Begins a sentence: "labels match" becomes "Labels match". */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Joins names as they are spoken: "a", "a and b", "a, b and c". */
export function listOf(names: readonly string[], last = "and"): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}
