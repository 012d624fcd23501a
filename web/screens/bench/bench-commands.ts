import type { Holder } from "../../../server/domain/custody/holder.ts";
import type { LoadId } from "../../../server/domain/ids.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import type { Condition } from "../../../server/domain/pieces/piece-entries.ts";
import { newId } from "../../api/uuid-v7.ts";
import { countOf } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import type { TrayPiece } from "./bench-run.ts";
import { type LoadMode, type Mode, memberName, partyName } from "./mode.ts";

/** Choices of the act that stand in the band under the tray. */
export interface ActChoices {
  readonly condition: Condition;
  readonly isFitSeen: boolean;
  /** When it happened, as a local date and time; absent for now, which is then assumed. */
  readonly earlier?: string;
  /** Of gear that is turned in: how it came. */
  readonly isWet?: boolean;
  readonly arePocketsChecked?: boolean;
  /** Of a load over the limits: why the program manager starts it. */
  readonly reason?: string;
  /** Of a load remembered late: by how many minutes the time can be off. */
  readonly aboutMinutes?: number;
}

export interface BenchCommand {
  readonly command: string;
  readonly body: object;
  /** What the hem says once it is written. */
  readonly says: string;
  /** The act is of now, whatever time it tells of. */
  readonly isNow?: true;
  /** The load that it starts. */
  readonly load?: { readonly load: LoadId; readonly pieces: number };
}

/**
 * Makes the one act of a tray. Undefined while the mode lacks its place or member, or collects nothing.
 * A move that went there and back says so.
 */
export function commandOf(
  mode: Mode,
  tray: readonly TrayPiece[],
  choices: ActChoices,
  me: string,
  thereAndBack?: true,
): BenchCommand | undefined {
  const made = commandOfTray(mode, tray, choices, me);
  if (!made || !thereAndBack || made.command !== "movePieces") return made;
  return { ...made, body: { ...made.body, thereAndBack }, says: `${made.says}, and back` };
}

function commandOfTray(
  mode: Mode,
  tray: readonly TrayPiece[],
  choices: ActChoices,
  me: string,
): BenchCommand | undefined {
  const pieces = tray.map(({ piece, evidence }) => {
    const holder = asHolder(piece.holder);
    // What a card brought along is taken by whoever confirms the tray, by eye.
    const known = mode.kind === "load" || evidence === "scanned" ? evidence : "typed";
    return { piece: piece.id, evidence: known, ...(holder ? { reliedOn: { holder } } : {}) };
  });
  const count = countOf(tray.length, "piece", "pieces");
  switch (mode.kind) {
    case "transfer": {
      if (!mode.to) return undefined;
      const to = { kind: "place", id: mode.to.id };
      return move({ pieces, to, purpose: "transfer" }, `${count} transferred to ${mode.to.name}`);
    }
    case "hand over": {
      const to = { kind: mode.to.kind, id: mode.to.id };
      const purpose = mode.to.kind === "provider" ? "to provider" : "hand over";
      return move({ pieces, to, purpose }, `${count} handed over to ${mode.to.name}`);
    }
    case "turn in": {
      if (!mode.to) return undefined;
      const to = { kind: "place", id: mode.to.id };
      const soiled = {
        ...(mode.soiled ? { soiled: true } : {}),
        ...(choices.isWet ? { wet: true } : {}),
        ...(choices.arePocketsChecked ? { pockets: "checked" } : {}),
      };
      return move({ pieces, to, purpose: "turn in", ...soiled }, `${count} turned in to ${mode.to.name}`);
    }
    case "issue": {
      if (!mode.to) return undefined;
      const to = { kind: "member", id: mode.to.id };
      const seen = choices.isFitSeen ? { fitSeenBy: me } : {};
      const body = { pieces, to, purpose: "issue", condition: choices.condition, ...seen };
      return move(body, `${count} issued to ${memberName(mode.to)}`);
    }
    case "as found": {
      if (!mode.where) return undefined;
      const { where } = mode;
      const isPlace = where.kind === "place";
      const holder = isPlace
        ? { kind: "place", id: where.place.id }
        : { kind: "member", id: where.member.id };
      const taken = isPlace ? {} : { takenBy: where.member.id };
      const body = { pieces, holder, ...taken, ...foundFitted(tray) };
      return { command: "recordFound", body, says: `${count} found with ${partyName(where)}` };
    }
    case "separate":
      return { command: "separateLayers", body: { pieces }, says: `layers of ${count} separated` };
    case "washed": {
      const how = mode.how ?? "advanced cleaning";
      const says = how === "advanced cleaning" ? `wash of ${count} recorded` : `${how} of ${count} recorded`;
      return { command: "recordCleaning", body: { pieces, how }, says };
    }
    case "load":
      return loadCommand(mode, pieces, count, choices);
    case "open a bag": {
      const found = tray.map(({ piece, evidence }) => {
        return { piece: piece.id, evidence: evidence === "scanned" ? evidence : "typed" };
      });
      const says = EVENT_WORDS.openedBag(mode.bag.name, tray.length);
      return { command: "openBag", body: { bag: mode.bag.id, found }, says };
    }
    case "wiped":
    case "pack a bag":
    case "look up":
    case "install":
    case "attach tag":
    case "reassemble":
      return undefined;
  }
}

/** Starts the load; a load told earlier than now is one that is over, and is remembered. */
function loadCommand(
  mode: LoadMode,
  pieces: readonly object[],
  count: string,
  { reason, earlier, aboutMinutes }: ActChoices,
): BenchCommand {
  const { machine, programme } = mode;
  const load = newId<LoadId>();
  const common = { load, machine: machine.id, pieces, ...(programme ? { programme } : {}) };
  const about = earlier ? Date.parse(earlier) : Number.NaN;
  if (!Number.isNaN(about)) {
    const body = { ...common, about: new Date(about).toISOString(), minutes: aboutMinutes ?? 30 };
    return {
      command: "rememberLoad",
      body,
      says: `load of ${count} in ${machine.name} written down`,
      isNow: true,
    };
  }
  const told = reason?.trim() ? { reason: reason.trim() } : {};
  return {
    command: "startLoad",
    body: { ...common, ...told },
    load: { load, pieces: pieces.length },
    says: `load of ${count} started in ${machine.name}`,
  };
}

function move(body: object, says: string): BenchCommand {
  return { command: "movePieces", body, says };
}

/** A shell with a layer scanned after it was found with that layer inside. */
function foundFitted(tray: readonly TrayPiece[]): { fitted?: { shell: string; layer: string }[] } {
  const fitted: { shell: string; layer: string }[] = [];
  let shell: TrayPiece["piece"] | undefined;
  for (const { piece } of tray) {
    if (piece.kind.layer === "shell") shell = piece;
    else if (piece.kind.layer && shell && shell.kind.garment === piece.kind.garment) {
      fitted.push({ shell: shell.id, layer: piece.id });
    }
  }
  return fitted.length > 0 ? { fitted } : {};
}

/** The holder that the screen showed, as a command states it. Undefined for one without a place in the ledger. */
export function asHolder(named: Named): Holder | undefined {
  switch (named.kind) {
    case "place":
    case "member":
    case "provider":
    case "outside":
      return named.id ? ({ kind: named.kind, id: named.id } as Holder) : undefined;
    case "in transit":
    case "whereabouts unknown":
      return { kind: named.kind };
    default:
      return undefined;
  }
}
