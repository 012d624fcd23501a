import { z } from "@hono/zod-openapi";
import { lastJobOn } from "../../cases/job-record.ts";
import {
  findRun,
  insertRun,
  listRuns,
  listUntagged,
  type PrintRunOnRecord,
  printFileBytes,
} from "../../cases/print-record.ts";
import type { AccountId, MemberId, PieceId, PlaceId, Uuid } from "../../domain/ids.ts";
import type { JobOrder, PrintChoice } from "../../jobs/job-order.ts";
import { answerFile } from "../answer-file.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import type { Services } from "../services.ts";
import { id, idText, line } from "../wire.ts";
import { envelopeAround } from "./act-routes.ts";
import { startedJob, startJob, WORKS } from "./jobs.ts";
import {
  cardStock,
  dpi,
  printOptions,
  printOptionsAnswer,
  printRun,
  printRunAnswer,
  printRunAnswers,
  printRunWithJob,
  tagStock,
} from "./print-answers.ts";

const MOST_TAGS = 10_000;
const SHOWN_PIECES = 200;

const params = z.object({ id: id<Uuid>() });
const tagChoice = {
  run: id<Uuid>(),
  stock: tagStock,
  dpi,
  /** Places of the first sheet that are empty already. */
  used: z.int().min(0).max(100).default(0),
  cutGapMm: z.number().min(0).max(10).default(0),
  words: z.enum(["all", "without the model", "number alone"]).default("all"),
  /** The cautions were shown and read, for this run. */
  ackCautions: z.literal(true, "must be true: the cautions are read before a run is drawn"),
};
const tagRun = z
  .object({
    ...tagChoice,
    spare: z.int().min(1).max(MOST_TAGS).exactOptional(),
    pieces: z.array(id<PieceId>()).min(1).max(MOST_TAGS).exactOptional(),
  })
  .refine(({ spare, pieces }) => (spare === undefined) !== (pieces === undefined), {
    message: "must have either spare or pieces",
  });
const cardRun = z.object({
  run: id<Uuid>(),
  stock: cardStock,
  dpi,
  places: z.array(id<PlaceId>()).max(2_000).default([]),
  members: z.array(id<MemberId>()).max(20_000).default([]),
  accounts: z.array(id<AccountId>()).max(2_000).default([]),
  actions: z.boolean().default(false),
});

async function runOf(services: Services, run: Uuid): Promise<PrintRunOnRecord> {
  const found = await findRun(services.db, run);
  if (!found) throw problem("not-found", "There is no such print run. Next: see the list of runs.");
  return found;
}

/** Print runs of tags and cards: drawn by a job, kept as files for a week, written down when they were printed. */
export const printRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/print-options",
      roles: WORKS,
      summary: "What tags and cards can be printed on, and the cautions before a run",
      answer: printOptions,
    },
    async () => printOptionsAnswer(),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/untagged-pieces",
      roles: WORKS,
      summary: "Pieces that carry no live tag, by place, kind, or the file that brought them in",
      query: z.object({
        place: id<PlaceId>().exactOptional(),
        kind: line(60).exactOptional(),
        act: id<Uuid>().exactOptional(),
      }),
      answer: z.object({
        ids: z.array(idText),
        /** The first of them, in words. */
        pieces: z.array(
          z.object({
            id: idText,
            kind: z.string(),
            label: z.string(),
            holder: z.string(),
            waits: z.boolean(),
          }),
        ),
        waiting: z.int(),
      }),
    },
    async ({ query, services }) => {
      const found = await listUntagged(services.db, { ...query, limit: MOST_TAGS });
      return {
        ids: found.map((piece) => piece.id),
        pieces: found.slice(0, SHOWN_PIECES),
        waiting: found.filter(({ waits }) => waits).length,
      };
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/print-runs",
      roles: WORKS,
      summary: "Print runs, the newest first",
      answer: z.object({ runs: z.array(printRun) }),
    },
    async ({ services }) => ({ runs: await printRunAnswers(services, await listRuns(services.db, 50)) }),
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/print-runs",
      roles: WORKS,
      summary: "Reserve numbers and draw tags: spare ones, or one for each piece",
      body: envelopeAround(tagRun),
      bodyLimitBytes: 2_097_152,
      answer: startedJob,
    },
    async ({ body, session, services }) => {
      const { command, ...sent } = body;
      const { run, spare, pieces, ackCautions: _, ...chosen } = command;
      const choice: PrintChoice = chosen;
      const tags = pieces ? { pieces } : { spare: spare ?? 0 };
      const envelope = { ...sent, by: session.account, role: session.role };
      const order = { what: "draw tags", about: run, tags, choice, envelope } as const;
      return draw(services, order, pieces?.length ?? spare ?? 0);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/print-runs/{id}",
      roles: WORKS,
      summary: "A print run: its files, what became of its tags, and its newest job",
      params,
      answer: printRunWithJob,
    },
    async ({ params: { id: run }, services }) => printRunAnswer(services, await runOf(services, run)),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/print-runs/{id}/files/{n}",
      roles: WORKS,
      summary: "One PDF of a run; every symbol in it was read back",
      params: z.object({ id: id<Uuid>(), n: z.coerce.number().int().min(1).max(100_000) }),
      query: z.object({ shown: z.enum(["attachment", "inline"]).default("attachment") }),
      answerType: "application/pdf",
    },
    async ({ params: { id: run, n }, query: { shown }, services }) => {
      const found = await runOf(services, run);
      const body = await printFileBytes(services.db, run, n);
      if (!body) {
        throw problem(
          "not-found",
          "This file is not drawn, or is older than a week. Next: draw the run again.",
        );
      }
      const day = found.madeAt.toISOString().slice(0, 10);
      const isRuler = found.files.some((file) => file.n === n && file.count === 0);
      const name = isRuler
        ? `ruler page ${found.stock}.pdf`
        : `${found.what} ${day} ${run.slice(-4)} ${n}.pdf`;
      return answerFile({ name, type: "application/pdf", body, shown });
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/print-runs/{id}/again",
      roles: WORKS,
      summary: "Draw anew, as a run of its own, the tags of a run that are on no piece yet",
      params,
      body: envelopeAround(z.object(tagChoice)),
      answer: startedJob,
    },
    async ({ params: { id: again }, body, session, services }) => {
      await runOf(services, again);
      const { command, ...sent } = body;
      const { run, ackCautions: _, ...choice } = command;
      const envelope = { ...sent, by: session.account, role: session.role };
      return draw(services, { what: "draw tags", about: run, tags: { again }, choice, envelope }, 0);
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/print-runs/{id}/printed",
      roles: WORKS,
      summary:
        "Say that the tags of a run came out of the printer; only then can one be fixed and scanned back",
      params,
      body: envelopeAround(z.object({})),
      answer: startedJob,
    },
    async ({ params: { id: run }, body, session, services }) => {
      const found = await runOf(services, run);
      if (found.what === "cards") throw problem("does-not-fit", "Cards need no word that they were printed.");
      const { command: _, ...sent } = body;
      const envelope = { ...sent, by: session.account, role: session.role };
      return startJob(services, { what: "mark printed", about: run, envelope }, session.account);
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/card-runs",
      roles: WORKS,
      summary: "Draw cards of places, members, actions and, for the program manager, badges",
      body: envelopeAround(cardRun),
      bodyLimitBytes: 2_097_152,
      answer: startedJob,
    },
    async ({ body, session, services }) => {
      const { command, ...sent } = body;
      const { run, stock, dpi: dots, ...cards } = command;
      if (cards.accounts.length > 0 && session.role !== "program manager") {
        throw problem("role-may-not", "Badges are printed by the program manager.");
      }
      const choice: PrintChoice = { stock, dpi: dots, used: 0, cutGapMm: 0, words: "all" };
      const envelope = { ...sent, by: session.account, role: session.role };
      return draw(services, { what: "draw cards", about: run, cards, choice, envelope }, 0);
    },
  ),
] as const;

type DrawOrder = Extract<JobOrder, { what: "draw tags" | "draw cards" }>;

/** Puts the run on record and starts its drawing. The same request sent twice gets the job that it started first. */
async function draw(
  services: Services,
  order: DrawOrder,
  count: number,
): Promise<z.input<typeof startedJob>> {
  const { about: run, choice, envelope } = order;
  const what = order.what === "draw tags" ? "tags" : "cards";
  const { stock, words, dpi: dots } = choice;
  const record = { id: run, by: envelope.by, what, stock, dpi: Number(dots), words, count } as const;
  const isFresh = await insertRun(services.db, record);
  const job = isFresh ? undefined : await lastJobOn(services.db, run);
  if (job && ["waiting", "running", "done"].includes(job.state)) return { job: job.id, about: run };
  return startJob(services, order, envelope.by);
}
