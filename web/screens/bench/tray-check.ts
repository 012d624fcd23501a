import type { PieceView } from "../../../server/domain/piece-view.ts";
import { countOf, midSentence, type Words } from "../../look/words.ts";
import type { TrayPiece } from "./bench-run.ts";
import type { Mode } from "./mode.ts";
import { reasonsOf } from "./ready-words.ts";

export interface TrayTold {
  readonly head: string;
  readonly says: string;
  /** Pieces that stop the act; the thread snaps at the first of them. */
  readonly stopping: ReadonlySet<string>;
  readonly reasons: readonly string[];
}

/** Parts of a full structural outfit. Only said, never a stop. Common practice. */
const OUTFIT: Readonly<Record<string, string>> = {
  "coat-shell": "coat",
  "pants-shell": "pants",
  helmet: "helmet",
  hood: "hood",
  "glove-pair": "gloves",
  "boot-pair": "boots",
};

/**
 * Says what the tray is as a whole before the server is asked: at issue, the set check that came with each piece.
 * The server decides anew when the act is confirmed; this only shows sooner what it will say.
 */
export function traySays(mode: Mode, tray: readonly TrayPiece[], say: Words): TrayTold {
  const count = countOf(tray.length, "piece", "pieces");
  if (mode.kind !== "issue") {
    return { head: count, says: say.confirmWrites, stopping: new Set(), reasons: [] };
  }
  const stopped = tray.filter(({ piece }) => stopsIssue(piece));
  const reasons = [...new Set(stopped.flatMap(({ piece }) => issueReasons(piece, say)))];
  const kinds = new Set(tray.map(({ piece }) => piece.kind.code));
  const lacking = Object.entries(OUTFIT).flatMap(([kind, name]) => (kinds.has(kind) ? [] : [name]));
  if (stopped.length > 0) {
    const head = say.notReadyHead(stopped.length);
    return {
      head,
      says: reasons.join(" "),
      stopping: new Set(stopped.map(({ piece }) => piece.id)),
      reasons,
    };
  }
  const head = lacking.length === 0 ? say.setComplete : say.setPart;
  const says = lacking.length === 0 ? say.nothingStops(count) : `${count}. ${say.withoutThese(lacking)}`;
  return { head, says, stopping: new Set(), reasons: [] };
}

function issueReasons(piece: PieceView, say: Words): readonly string[] {
  if (piece.ready.isReady) return [];
  const reasons = piece.ready.reasons.filter(({ code }) => code !== "not-at-a-place");
  return reasonsOf(reasons, piece, { ...say, it: midSentence(piece.kind.name) });
}

/** Being with somebody else does not stop an issue: it is a hand-over. */
function stopsIssue(piece: PieceView): boolean {
  return !piece.ready.isReady && piece.ready.reasons.some(({ code }) => code !== "not-at-a-place");
}
