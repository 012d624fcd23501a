import type { PieceId } from "../ids.ts";
import type { TagNumber } from "./tag-number.ts";

/**
 * What became of a tag. Once attached it names one piece for ever: superseded, lost and destroyed tags still open
 * that piece. `position` says where on the piece it sits, one of its kind's positions (left, right, second).
 */
export type TagState =
  | { readonly status: "reserved" }
  | { readonly status: "printed"; readonly prints: number }
  | { readonly status: "attached"; readonly piece: PieceId; readonly position: string }
  | {
      readonly status: "superseded";
      readonly piece: PieceId;
      readonly position: string;
      readonly by: TagNumber;
    }
  | { readonly status: "lost"; readonly piece: PieceId; readonly position: string }
  | { readonly status: "destroyed"; readonly piece: PieceId; readonly position: string }
  | { readonly status: "void"; readonly reason: string };

export type TagCommand =
  | { readonly do: "print" }
  | {
      readonly do: "attach";
      readonly piece: PieceId;
      readonly position: string;
      readonly proof: "scanned" | "typed";
    }
  | { readonly do: "supersede"; readonly by: TagNumber }
  | { readonly do: "lose" }
  | { readonly do: "find"; readonly proof: "scanned" | "typed" }
  | { readonly do: "destroy" }
  | { readonly do: "void"; readonly reason: string };

export type TagRefusal =
  | { readonly code: "tag-not-printed" }
  | { readonly code: "tag-not-scanned-back" }
  | { readonly code: "tag-already-attached"; readonly piece: PieceId }
  | { readonly code: "tag-was-attached"; readonly piece: PieceId; readonly status: TagState["status"] }
  | { readonly code: "tag-never-attached"; readonly status: TagState["status"] }
  | { readonly code: "tag-is-void"; readonly reason: string }
  | { readonly code: "tag-not-lost"; readonly status: TagState["status"] }
  | {
      readonly code: "tag-ended";
      readonly piece: PieceId;
      readonly status: "superseded" | "lost" | "destroyed";
    };

export type TagDecision = { readonly next: TagState } | { readonly refusal: TagRefusal };

/**
 * Decides what a command makes of a tag. A tag goes live only when it was scanned back from the finished label:
 * typing never proves it. A number is printed again only while it was never attached; a spoiled print becomes void
 * and is never used. Refusals name the fact that stands against the command.
 */
export function decideTag(state: TagState, command: TagCommand): TagDecision {
  switch (command.do) {
    case "print":
      return print(state);
    case "attach":
      return attach(state, command);
    case "supersede":
      return endLive(state, (held) => ({ status: "superseded", ...held, by: command.by }));
    case "lose":
      return state.status === "lost"
        ? refuse({ code: "tag-ended", piece: state.piece, status: "lost" })
        : endLive(state, (held) => ({ status: "lost", ...held }));
    case "destroy":
      return endLive(state, (held) => ({ status: "destroyed", ...held }));
    case "find":
      return find(state, command.proof);
    case "void":
      return spoil(state, command.reason);
  }
}

/** Names the piece that a tag opens, whether the tag is live or was once. Undefined while it opens none. */
export function pieceOfTag(state: TagState): PieceId | undefined {
  return "piece" in state ? state.piece : undefined;
}

function refuse(refusal: TagRefusal): TagDecision {
  return { refusal };
}

function print(state: TagState): TagDecision {
  switch (state.status) {
    case "reserved":
      return { next: { status: "printed", prints: 1 } };
    case "printed":
      return { next: { status: "printed", prints: state.prints + 1 } };
    case "void":
      return refuse({ code: "tag-is-void", reason: state.reason });
    case "attached":
    case "superseded":
    case "lost":
    case "destroyed":
      return refuse({ code: "tag-was-attached", piece: state.piece, status: state.status });
  }
}

function attach(state: TagState, command: Extract<TagCommand, { do: "attach" }>): TagDecision {
  switch (state.status) {
    case "reserved":
      return refuse({ code: "tag-not-printed" });
    case "printed":
      return command.proof === "scanned"
        ? { next: { status: "attached", piece: command.piece, position: command.position } }
        : refuse({ code: "tag-not-scanned-back" });
    case "attached":
      return refuse({ code: "tag-already-attached", piece: state.piece });
    case "void":
      return refuse({ code: "tag-is-void", reason: state.reason });
    case "superseded":
    case "lost":
    case "destroyed":
      return refuse({ code: "tag-ended", piece: state.piece, status: state.status });
  }
}

type Held = { readonly piece: PieceId; readonly position: string };

function endLive(state: TagState, end: (held: Held) => TagState): TagDecision {
  switch (state.status) {
    case "attached":
    case "lost":
      return { next: end({ piece: state.piece, position: state.position }) };
    case "superseded":
    case "destroyed":
      return refuse({ code: "tag-ended", piece: state.piece, status: state.status });
    case "void":
      return refuse({ code: "tag-is-void", reason: state.reason });
    case "reserved":
    case "printed":
      return refuse({ code: "tag-never-attached", status: state.status });
  }
}

/** A lost tag that turns up on its piece is live again, once it was scanned there. */
function find(state: TagState, proof: "scanned" | "typed"): TagDecision {
  if (state.status !== "lost") return refuse({ code: "tag-not-lost", status: state.status });
  if (proof === "typed") return refuse({ code: "tag-not-scanned-back" });
  return { next: { status: "attached", piece: state.piece, position: state.position } };
}

function spoil(state: TagState, reason: string): TagDecision {
  switch (state.status) {
    case "reserved":
    case "printed":
      return { next: { status: "void", reason } };
    case "void":
      return refuse({ code: "tag-is-void", reason: state.reason });
    case "attached":
    case "superseded":
    case "lost":
    case "destroyed":
      return refuse({ code: "tag-was-attached", piece: state.piece, status: state.status });
  }
}
