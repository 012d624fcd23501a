import { z } from "@hono/zod-openapi";
import {
  assignPiecesAct,
  compareByEyeAct,
  installLayerAct,
  liftHoldAct,
  movePiecesAct,
  placeHoldAct,
  recordCleaningAct,
  recordFoundAct,
  retirePiecesAct,
  separateLayersAct,
} from "../../cases/bench-acts.ts";
import { correctMoveAct, takeBackAct } from "../../cases/correct-acts.ts";
import type { MemberId, PieceId } from "../../domain/ids.ts";
import { CONDITIONS, HOLD_KINDS, HOW_CLEANED, PURPOSES } from "../../domain/pieces/piece-entries.ts";
import type { Role } from "../../domain/register/account.ts";
import { handledPieces, holder, id, instant, line, MOST_PIECES, note } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

/** Who works at the bench. */
const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
/** Who may write down where gear was found: the field does so too. */
const FIELD: readonly Role[] = [...BENCH, "company officer"];
const INSPECTS: readonly Role[] = ["inspector", "program manager"];

const piece = id<PieceId>();
const pieces = z.array(piece).min(1).max(MOST_PIECES);

export const BENCH_ACTS = [
  defineAct({
    command: "movePieces",
    summary: "Moves pieces to one holder: transfer, turn-in, issue, to and from a provider",
    roles: BENCH,
    schema: z.object({
      pieces: handledPieces,
      to: holder,
      purpose: z.enum(PURPOSES),
      soiled: z.boolean().exactOptional(),
      wet: z.literal(true).exactOptional(),
      pockets: z.literal("checked").exactOptional(),
      condition: z.enum(CONDITIONS).exactOptional(),
      releasedBy: id().exactOptional(),
      receivedBy: id().exactOptional(),
      fitSeenBy: id().exactOptional(),
      document: line(200).exactOptional(),
      set: line(60).exactOptional(),
      thereAndBack: z.boolean().exactOptional(),
    }),
    act: movePiecesAct,
    badgeMay: ({ purpose, to }) => purpose === "turn in" && to.kind === "place",
  }),
  defineAct({
    command: "recordFound",
    summary: "Records where pieces were found, and what was fitted in what; never refused for policy",
    roles: FIELD,
    schema: z.object({
      pieces: handledPieces,
      holder,
      takenBy: id<MemberId>().exactOptional(),
      fitted: z
        .array(z.object({ shell: piece, layer: piece }))
        .max(MOST_PIECES)
        .exactOptional(),
    }),
    act: recordFoundAct,
  }),
  defineAct({
    command: "installLayer",
    summary: "Puts a liner or DRD into a shell when its labels let it",
    roles: BENCH,
    schema: z.object({ shell: piece, layer: piece, evidence: z.enum(["scanned", "typed"]) }),
    act: installLayerAct,
  }),
  defineAct({
    command: "separateLayers",
    summary: "Takes layers out of their shells; a shell names all layers in it",
    roles: BENCH,
    schema: z.object({ pieces: handledPieces }),
    act: separateLayersAct,
  }),
  defineAct({
    command: "recordCleaning",
    summary: "Records that pieces were cleaned, each one by itself",
    roles: BENCH,
    schema: z.object({
      pieces: handledPieces,
      how: z.enum(HOW_CLEANED),
    }),
    act: recordCleaningAct,
  }),
  defineAct({
    command: "compareByEye",
    summary: "Records that an inspector compared two labels by eye",
    roles: INSPECTS,
    schema: z.object({ shell: piece, layer: piece }),
    act: compareByEyeAct,
  }),
  defineAct({
    command: "assignPieces",
    summary: "Says to whose use pieces belong, and in which set",
    roles: BENCH,
    schema: z.object({ pieces, to: z.object({ member: id<MemberId>(), set: line(60) }).nullable() }),
    act: assignPiecesAct,
  }),
  defineAct({
    command: "retirePieces",
    summary: "Retires pieces; from then on they are only found",
    roles: INSPECTS,
    schema: z.object({ pieces: handledPieces, method: line(200) }),
    act: retirePiecesAct,
  }),
  defineAct({
    command: "placeHold",
    summary: "Puts pieces on hold",
    roles: BENCH,
    schema: z.object({ pieces, hold: z.enum(HOLD_KINDS), note: note.exactOptional() }),
    act: placeHoldAct,
  }),
  defineAct({
    command: "liftHold",
    summary: "Lifts one hold, with the reason; who may depends on the hold",
    roles: BENCH,
    schema: z.object({ piece, version: z.int().min(1), note }),
    act: liftHoldAct,
  }),
  defineAct({
    command: "correctMove",
    summary: "Corrects one entry of a piece: another holder, another time, or not at all",
    roles: BENCH,
    schema: z.object({
      piece,
      version: z.int().min(1),
      to: holder.exactOptional(),
      at: instant.exactOptional(),
      void: z.literal(true).exactOptional(),
      note,
    }),
    act: correctMoveAct,
  }),
  defineAct({
    command: "takeBackAct",
    summary: "Takes back a whole act; both stay on record",
    roles: BENCH,
    schema: z.object({ act: id(), note }),
    act: takeBackAct,
  }),
];
