import { z } from "@hono/zod-openapi";
import { answerScan, HANDING_IN, viewPiece } from "../../cases/look-up.ts";
import type { PieceId } from "../../domain/ids.ts";
import type { PieceView } from "../../domain/piece-view.ts";
import type { ScanAnswer } from "../../domain/scan-answer.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { mustSee, viewerOf } from "../viewer-of.ts";
import { id } from "../wire.ts";

const scanAnswer = shown<ScanAnswer>(
  "ScanAnswer",
  "What a scanned text names; `kind` tells which. Instants are ISO 8601.",
);
const pieceView = shown<PieceView>("PieceView", "Everything that the bench shows of one piece.");

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
] as const;
