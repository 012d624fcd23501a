import type { Holder } from "../../server/domain/custody/holder.ts";
import type { EntryBody, Named } from "../../server/domain/piece-view.ts";
import { midSentence } from "../look/words.ts";

type Names = Readonly<Record<string, Named>>;

/** Says one entry as a short sentence, the piece being the subject. One wording for bench, trail and print. */
export function actSentence(body: EntryBody, names: Names): string {
  const { verb, rest } = entryParts(body, names);
  return rest ? `${verb} ${rest}.` : `${verb}.`;
}

/** An entry is late when it was recorded more than a quarter of an hour after it happened. Own judgement. */
export function isLate(at: string, recordedAt: string): boolean {
  return Date.parse(recordedAt) - Date.parse(at) > 15 * 60_000;
}

export interface EntryParts {
  /** The first words, in bold on a trail. */
  readonly verb: string;
  readonly rest?: string;
}

/** Splits the sentence of an entry into its verb and the rest. */
export function entryParts(body: EntryBody, names: Names): EntryParts {
  if (body.subjectKind === "tag") return tagParts(body.entry);
  const { entry } = body;
  const piece = (id: string) => nameOf(names, id);
  switch (entry.kind) {
    case "PieceRegistered":
      return { verb: "Registered", rest: `at ${holderName(entry.holder, names)}` };
    case "PieceDescribed":
      return { verb: "Described", rest: describedFields({ ...entry.label, ...entry.file }) };
    case "PieceMoved":
      return movedParts(entry, names);
    case "PieceFound": {
      const despite = entry.despite?.length ? `, although ${entry.despite.join(" and ")}` : "";
      const taken = entry.takenBy ? `, taken by ${piece(entry.takenBy)}` : "";
      return { verb: "Found", rest: `${foundAt(entry.holder, names)}${taken}${despite}` };
    }
    case "PieceMet":
      return { verb: "Was at", rest: piece(entry.event) };
    case "PieceNotMet":
      return { verb: "Was not at", rest: `${piece(entry.event)} after all` };
    case "PieceCleaned":
      return cleanedParts(entry);
    case "PropertyFound":
      return { verb: "Property found", rest: `in it, receipt ${entry.receipt}` };
    case "PropertyGivenBack":
      return {
        verb: "Property given back",
        rest: `${entry.to ? `to ${piece(entry.to)}, ` : ""}receipt ${entry.receipt}`,
      };
    case "LayerInstalled":
      return { verb: "Installed", rest: `in ${piece(entry.shell)}: ${verdictSays(entry.verdict)}` };
    case "LayerFoundFitted":
      return {
        verb: "Found fitted",
        rest: `in ${piece(entry.shell)}: ${verdictSays(entry.verdict)}`,
      };
    case "LayerSeparated":
      return { verb: "Separated", rest: `from ${piece(entry.shell)}` };
    case "LabelsComparedByEye":
      return { verb: "Labels compared by eye", rest: `with ${piece(entry.shell)}, by ${piece(entry.by)}` };
    case "HoldPlaced":
      return {
        verb: "Put on hold",
        rest: `for ${entry.hold}${entry.event ? `, ${piece(entry.event)}` : ""}${entry.with ? `: it was found with ${piece(entry.with)}` : ""}`,
      };
    case "HoldLifted":
      return {
        verb: "Hold lifted",
        rest: LIFTED[entry.because] ?? `of entry ${entry.hold}`,
      };
    case "ForeignCodeBound":
      return { verb: "Code added", rest: entry.code };
    case "PieceAssigned":
      return entry.assignment
        ? { verb: "Assigned", rest: `to ${piece(entry.assignment.member)}, ${entry.assignment.set}` }
        : { verb: "Assigned", rest: "to nobody" };
    case "PieceRetired":
      return { verb: "Retired", rest: `(${entry.method})` };
    case "EntryCorrected":
      return { verb: "Corrected", rest: correctedParts(body.subject, entry, names) };
  }
}

const LIFTED: Readonly<Record<string, string>> = {
  separated: "by itself: the two were separated",
  cleaned: "by itself: the department accepts this cleaning for what it met",
  "not met": "by itself: it was not there after all",
};

/** A place is where a piece is; whoever else has it, it is with. */
function foundAt(holder: Holder, names: Names): string {
  return `${holder.kind === "place" ? "at" : "with"} ${holderName(holder, names)}`;
}

type Of<Kind> = Extract<Extract<EntryBody, { subjectKind: "piece" }>["entry"], { kind: Kind }>;

function movedParts(entry: Of<"PieceMoved">, names: Names): EntryParts {
  const [from, to] = [holderName(entry.from, names), holderName(entry.to, names)];
  const came = [
    entry.soiled ? ", soiled" : "",
    entry.wet ? ", wet" : "",
    entry.pockets ? ", pockets checked" : "",
  ];
  const soiled = came.join("");
  const within = entry.within ? `, in ${nameOf(names, entry.within)}` : "";
  if (entry.purpose === "issue") return { verb: "Issued", rest: `from ${from} to ${to}${within}` };
  if (entry.purpose === "turn in")
    return { verb: "Turned in", rest: `by ${from} to ${to}${soiled}${within}` };
  if (entry.load) return { verb: "Put in", rest: `a load at ${to}, from ${from}${within}` };
  if (entry.purpose === "load")
    return { verb: "Taken out", rest: `of the load at ${from}, to ${to}${within}` };
  return { verb: "Moved", rest: `from ${from} to ${to}${soiled}${within}` };
}

/** Each kind of cleaning under its own term; only a wash is called one. */
const CLEANED_VERBS: Readonly<Record<Of<"PieceCleaned">["how"], string>> = {
  "preliminary exposure reduction": "Rinsed on scene",
  "advanced cleaning": "Washed",
  "specialised cleaning": "Cleaned",
  sanitisation: "Sanitised",
  disinfection: "Disinfected",
};

function cleanedParts({ how, load, evidence, leavesOpen }: Of<"PieceCleaned">): EntryParts {
  const open = leavesOpen?.length ? `; it does not end ${leavesOpen.join(", ").replaceAll("-", " ")}` : "";
  const told = evidence === "told by provider" ? ", told by the provider" : "";
  return { verb: CLEANED_VERBS[how], rest: `(${how})${load ? ", in a load" : ""}${told}${open}` };
}

function correctedParts(subject: string, entry: Of<"EntryCorrected">, names: Names): string {
  if (!entry.instead) return `entry ${entry.corrects}: it does not stand. Both entries stay`;
  const instead = entryParts(
    { subjectKind: "piece", subject: subject as never, version: 0, entry: entry.instead },
    names,
  );
  return `entry ${entry.corrects}. It should say: ${instead.verb.toLowerCase()} ${instead.rest ?? ""}. Both entries stay`;
}

function tagParts(entry: Extract<EntryBody, { subjectKind: "tag" }>["entry"]): EntryParts {
  switch (entry.kind) {
    case "TagReserved":
      return { verb: "Tag reserved", rest: grouped(entry.number) };
    case "TagPrinted":
      return { verb: "Tag printed" };
    case "TagAttached":
      return { verb: "Tag attached", rest: `at position ${entry.position}, and read back` };
    case "TagSuperseded":
      return { verb: "Tag replaced", rest: `by ${grouped(entry.by)}; the old number still opens the piece` };
    case "TagLost":
      return { verb: "Tag lost" };
    case "TagFound":
      return { verb: "Tag found", rest: "on its piece" };
    case "TagDestroyed":
      return { verb: "Tag destroyed" };
    case "TagVoided":
      return { verb: "Tag void", rest: `(${entry.reason})` };
  }
}

const VERDICTS = {
  match: "labels match",
  accepted: "accepted",
  differs: "differs",
  "cannot-tell": "cannot tell",
  "not-read": "not yet read",
} as const;
function verdictSays(verdict: keyof typeof VERDICTS): string {
  return VERDICTS[verdict];
}

function describedFields(told: object): string {
  const fields = Object.keys(told).map((field) => fieldName(field));
  return fields.length > 0 ? fields.join(", ") : "what is on file";
}

/** Says a field of the ledger in words: `linerCode` is the liner code. */
function fieldName(field: string): string {
  if (field === "priceCents") return "price";
  if (field === "inServiceOn") return "in service since";
  return field.replace(/([A-Z])/g, " $1").toLowerCase();
}

export function holderName(holder: Holder, names: Names): string {
  return "id" in holder ? nameOf(names, holder.id) : holder.kind;
}

function nameOf(names: Names, id: string): string {
  const found = names[id];
  if (!found) return "a name that is not on record";
  return found.kind === "piece" && found.detail
    ? `${midSentence(found.name)} ${grouped(found.detail)}`
    : found.name;
}

function grouped(number: string): string {
  return number.replaceAll(" ", "").replace(/(.{4})(?=.)/g, "$1 ");
}
