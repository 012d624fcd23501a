/** Fixed words of the screens, first half: modes, scans, tray, sign-in. Gathered in words.ts. */
import { countOf, listOf } from "./say-lists.ts";

export const BENCH_WORDS = {
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

  whenItWas: "When it was",
  nowAssumed: "Now (assumed)",
  earlier: "Earlier",
  whenExactly: "Day and time, on this device’s clock",
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
} as const;
