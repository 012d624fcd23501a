import { z } from "@hono/zod-openapi";
import { checkLabelsOnRecord, type LabelCheckShown } from "../../cases/label-check.ts";
import { answerScan, HANDING_IN, viewPiece } from "../../cases/look-up.ts";
import { readTrail } from "../../cases/trail.ts";
import type { PieceId } from "../../domain/ids.ts";
import type { TrailView } from "../../domain/page-views.ts";
import type { PieceView } from "../../domain/piece-view.ts";
import type { ScanAnswer } from "../../domain/scan-answer.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { mustSee, viewerOf } from "../viewer-of.ts";
import { id, position } from "../wire.ts";

const scanAnswer = shown<ScanAnswer>(
  "ScanAnswer",
  "What a scanned text names; `kind` tells which. Instants are ISO 8601.",
);
const pieceView = shown<PieceView>("PieceView", "Everything that the bench shows of one piece.");
const trailView = shown<TrailView>(
  "TrailView",
  "Entries, stays, gaps and fittings of one piece, and whether any was changed.",
);

const labelCheck = shown<LabelCheckShown>(
  "LabelCheckShown",
  "The label check of a layer in a shell, and how the layer stands to the shell's record.",
);

const NO_TRAIL = {
  piece: "No piece with this id was on record then. Next: scan a tag of it, or ask for a later position.",
  position: "The ledger has not come to this position. Next: ask without it for what is known now.",
};

/** What the bench asks, most often of all. */
export const queryRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/scan/{text}",
      roles: "badge ok",
      summary: "What a scanned or typed text names; keeps the scan",
      params: z.object({ text: z.string().max(10_000) }),
      query: z.object({
        mode: z.string().min(1).max(100).openapi({ description: "What the bench does with the next scan" }),
        via: z.enum(["wedge", "camera", "typed"]),
      }),
      answer: scanAnswer,
    },
    async ({ params, query, session, services }) => {
      if (session.strength === "badge" && !HANDING_IN.has(query.mode)) {
        throw problem("badge-may-not", "Next: enter your PIN, or sign in with your passphrase.");
      }
      const scan = { text: params.text, via: query.via, mode: query.mode, device: session.device };
      const { answer, kept } = await answerScan(services.db, scan, viewerOf(session), services.now());
      kept.catch(services.onFault);
      return answer;
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/pieces/{piece}",
      roles: "signed in",
      summary: "One piece as the bench shows it",
      params: z.object({ piece: id<PieceId>() }),
      answer: pieceView,
    },
    async ({ params: { piece }, session, services: { db } }) => {
      await mustSee(db, session, { piece });
      const view = await viewPiece(db, piece);
      if (!view) throw problem("not-found", "No piece has this id. Next: scan a tag of it.");
      return view;
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/pieces/{piece}/trail",
      roles: "signed in",
      summary: "The whole trail of a piece, now or as it was known at a position of the ledger",
      params: z.object({ piece: id<PieceId>() }),
      query: z.object({ "known-at": position.optional() }),
      answer: trailView,
    },
    async ({ params: { piece }, query, session, services: { db, now } }) => {
      await mustSee(db, session, { piece });
      const trail = await readTrail(db, piece, now(), query["known-at"]);
      if (!("missing" in trail)) return trail;
      throw problem("not-found", NO_TRAIL[trail.missing]);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/label-check",
      roles: "signed in",
      summary: "Whether a layer belongs in a shell, by their labels and by the record",
      query: z.object({ shell: id<PieceId>(), layer: id<PieceId>() }),
      answer: labelCheck,
    },
    async ({ query: { shell, layer }, session, services: { db } }) => {
      await mustSee(db, session, { piece: shell });
      await mustSee(db, session, { piece: layer });
      const shownCheck = await checkLabelsOnRecord(db, shell, layer);
      if (shownCheck) return shownCheck;
      throw problem("not-found", "One of the two pieces is not on record. Next: scan both once more.");
    },
  ),
] as const;
