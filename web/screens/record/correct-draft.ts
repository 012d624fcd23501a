import type { Holder } from "../../../server/domain/custody/holder.ts";
import type { TrailEntry } from "../../../server/domain/page-views.ts";
import { isCorrectable } from "../../../server/domain/pieces/correct-entries.ts";
import type { PieceEntry } from "../../../server/domain/pieces/piece-entries.ts";
import { instantIn } from "./days.ts";

/** What can be wrong with an entry: where it went, when it was, or that it happened at all. */
export type Wrong = "holder" | "time" | "entry" | "act";

export interface CorrectDraft {
  readonly wrong: Wrong;
  readonly to?: { readonly holder: Holder; readonly name: string; readonly detail?: string | undefined };
  /** Local date and time in the department's zone: `2026-03-02T09:15`. */
  readonly at: string;
  readonly note: string;
}

/** The fact that stands: a correction's own where the entry is one. */
function standing(entry: TrailEntry): PieceEntry | undefined {
  if (entry.subjectKind !== "piece" || entry.ofLayer || entry.correctedBy !== undefined) return undefined;
  return entry.entry.kind === "EntryCorrected" ? entry.entry.instead : entry.entry;
}

/** Lists what can be corrected of an entry of this trail; nothing for what is told of tags, layers and labels. */
export function whatCanBeWrong(entry: TrailEntry): readonly Wrong[] {
  const fact = standing(entry);
  if (!fact || !isCorrectable(fact)) return [];
  const moves = fact.kind === "PieceMoved" || fact.kind === "PieceFound";
  return [...(moves ? (["holder"] as const) : []), "time", "entry", "act"];
}

/** Makes the command of a draft; undefined while it lacks what is right, or the reason. */
export function correctionOf(
  piece: string,
  entry: TrailEntry,
  draft: CorrectDraft,
  timeZone: string,
): { readonly command: "correctMove" | "takeBackAct"; readonly body: object } | undefined {
  const note = draft.note.trim();
  if (note === "") return undefined;
  if (draft.wrong === "act") return { command: "takeBackAct", body: { act: entry.act, note } };
  const about = { piece, version: entry.version, note };
  const correct = (body: object) => ({ command: "correctMove" as const, body: { ...about, ...body } });
  switch (draft.wrong) {
    case "entry":
      return correct({ void: true });
    case "holder":
      return draft.to && correct({ to: draft.to.holder });
    case "time": {
      const at = instantIn(draft.at, timeZone);
      return at === undefined ? undefined : correct({ at: new Date(at).toISOString() });
    }
  }
}
