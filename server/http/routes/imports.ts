import { createHash } from "node:crypto";
import { z } from "@hono/zod-openapi";
import {
  findBroughtIn,
  findUpload,
  type ImportWhat,
  keepColumns,
  keepUpload,
  listBroughtIn,
  listProblems,
  parkedCsvOf,
  parkedCsvOfFile,
  type Upload,
} from "../../cases/import-record.ts";
import { drawId } from "../../cases/import-register.ts";
import { nameIds } from "../../cases/name-ids.ts";
import type { Session } from "../../cases/sessions.ts";
import type { Uuid } from "../../domain/ids.ts";
import { MEMBER_COLUMNS, MODEL_COLUMNS, PIECE_COLUMNS } from "../../domain/intake/columns.ts";
import { writeTemplate } from "../../domain/intake/csv-write.ts";
import type { Role } from "../../domain/register/account.ts";
import { answerCsv } from "../answer-file.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import type { Services } from "../services.ts";
import { id, idText, line } from "../wire.ts";
import { envelopeAround } from "./act-routes.ts";
import {
  broughtIn,
  broughtInAnswer,
  importAnswer,
  importOnWire,
  importWhat,
  problemsPage,
} from "./import-answers.ts";
import { refuseUnlessOwn, startedJob, startJob, WORKS } from "./jobs.ts";

/** Who may bring in what: the same roles that may do it by hand. */
const MAY_BRING_IN: Readonly<Record<ImportWhat, readonly Role[]>> = {
  pieces: WORKS,
  models: ["inspector", "program manager"],
  members: ["program manager"],
};
const COLUMNS = { pieces: PIECE_COLUMNS, models: MODEL_COLUMNS, members: MEMBER_COLUMNS };

/** Base64 of somewhat more than the 20 MB that are read, so that a larger file is told its size and not only refused. */
const BODY_BYTES = 33_554_432;
const PROBLEMS_A_PAGE = 200;

const params = z.object({ id: id<Uuid>() });
const file = z.object({
  name: line(200),
  /** The file's bytes in base64. */
  contentBase64: z.string().max(BODY_BYTES),
});
const arrived = z.object({ id: idText, job: idText.optional() });

async function ownUpload(services: Services, session: Session, upload: Uuid): Promise<Upload> {
  const found = await findUpload(services.db, upload);
  if (!found)
    throw problem("not-found", "There is no such file; it is kept for a day. Next: choose it again.");
  refuseUnlessOwn(session, found.by);
  if (!MAY_BRING_IN[found.what].includes(session.role)) {
    throw problem("role-may-not", `It needs: ${MAY_BRING_IN[found.what].join(", ")}.`);
  }
  return found;
}

/** Takes a file and has it read, unless these bytes were brought in before: then there is nothing to read. */
function bringRoute<const What extends ImportWhat>(what: What, summary: string) {
  return defineRoute(
    {
      method: "post",
      path: `/api/imports/${what}`,
      roles: MAY_BRING_IN[what],
      summary,
      body: file,
      answer: arrived,
      bodyLimitBytes: BODY_BYTES,
    },
    async ({ body, session, services }) => {
      const bytes = Buffer.from(body.contentBase64, "base64");
      const sha256 = createHash("sha256").update(bytes).digest();
      const upload = drawId<Uuid>(services.now());
      const by = session.account;
      await keepUpload(services.db, { id: upload, what, name: body.name, by, sha256, bytes });
      if (await findBroughtIn(services.db, sha256)) return { id: upload };
      const { job } = await startJob(services, { what: "read file", about: upload }, by);
      return { id: upload, job };
    },
  );
}

/** Files that are brought in: arrival, columns, preview, acceptance, parked rows. */
export const importRoutes = [
  bringRoute("pieces", "Bring in a file of pieces: it is read, and nothing is written yet"),
  bringRoute("models", "Bring in a model table: it is read, and nothing is written yet"),
  bringRoute("members", "Bring in a roster: it is read, and nothing is written yet"),
  defineRoute(
    {
      method: "get",
      path: "/api/imports",
      roles: WORKS,
      summary: "Files that were brought in, the newest first",
      answer: z.object({ files: z.array(broughtIn) }),
    },
    async ({ services }) => {
      const files = await listBroughtIn(services.db, 100);
      const nameOf = await nameIds(
        services.db,
        files.map(({ by }) => by),
      );
      return { files: files.map((each) => broughtInAnswer(each, nameOf)) };
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/import-templates/{what}",
      roles: WORKS,
      summary: "An empty file with the headers of a template",
      params: z.object({ what: importWhat }),
      answerType: "text/csv",
    },
    async ({ params: { what } }) => answerCsv(`${what} template.csv`, writeTemplate(COLUMNS[what])),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/import-files/{sha256}/parked",
      roles: WORKS,
      summary: "The parked rows of a file that was brought in, each with its reasons",
      params: z.object({ sha256: z.string().regex(/^[0-9a-f]{64}$/) }),
      answerType: "text/csv",
    },
    async ({ params: { sha256 }, session, services }) => {
      const hash = Buffer.from(sha256, "hex");
      const found = await findBroughtIn(services.db, hash);
      const csv = found && (await parkedCsvOfFile(services.db, hash));
      if (!found || csv === undefined) throw problem("not-found", "No row of such a file was parked.");
      refuseUnlessOwn(session, found.by);
      return answerCsv(parkedName(found.name), csv);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/imports/{id}",
      roles: WORKS,
      summary: "A file on its way in: what reading it came to, and what became of it",
      params,
      answer: importOnWire,
    },
    async ({ params: { id: upload }, session, services }) =>
      importAnswer(services, await ownUpload(services, session, upload)),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/imports/{id}/problems",
      roles: WORKS,
      summary: "Every problem by row and column, a page at a time",
      params,
      query: z.object({ after: z.coerce.number().int().min(0).default(0) }),
      answer: problemsPage,
    },
    async ({ params: { id: upload }, query: { after }, session, services }) => {
      await ownUpload(services, session, upload);
      const problems = await listProblems(services.db, upload, after, PROBLEMS_A_PAGE);
      const last = problems.at(-1);
      const isMore = problems.length === PROBLEMS_A_PAGE && last;
      return { problems: [...problems], ...(isMore ? { next: last.n } : {}) };
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/imports/{id}/parked",
      roles: WORKS,
      summary: "The rows that would be parked, each with its reasons, to mend and bring in again",
      params,
      answerType: "text/csv",
    },
    async ({ params: { id: upload }, session, services }) => {
      const { name } = await ownUpload(services, session, upload);
      const csv = await parkedCsvOf(services.db, upload);
      if (csv === undefined) throw problem("not-found", "No row of this file is parked.");
      return answerCsv(parkedName(name), csv);
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/imports/{id}/read",
      roles: WORKS,
      summary: "Say which column holds which field, or none, and read the file anew",
      params,
      body: z.object({ columns: z.record(z.string().max(40), z.int().min(0).nullable()) }),
      answer: startedJob,
    },
    async ({ params: { id: upload }, body, session, services }) => {
      const { what } = await ownUpload(services, session, upload);
      const fields = new Set<string>(COLUMNS[what].map(({ field }) => field));
      const stranger = Object.keys(body.columns).find((field) => !fields.has(field));
      if (stranger) throw problem("does-not-fit", `columns.${stranger}: is no field of a file of ${what}`);
      await keepColumns(services.db, upload, body.columns);
      return startJob(services, { what: "read file", about: upload }, session.account);
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/imports/{id}/accept",
      roles: WORKS,
      summary: "Bring in the accepted rows as one act, all or none; the others stay parked",
      params,
      body: envelopeAround(z.object({ digest: z.string().regex(/^[0-9a-f]{64}$/) })),
      answer: startedJob,
    },
    async ({ params: { id: upload }, body, session, services }) => {
      await ownUpload(services, session, upload);
      const { command, ...sent } = body;
      const envelope = { ...sent, by: session.account, role: session.role };
      const order = { what: "bring in file", about: upload, digest: command.digest, envelope } as const;
      return startJob(services, order, session.account);
    },
  ),
] as const;

function parkedName(name: string): string {
  return `${name.replace(/\.csv$/i, "")} parked.csv`;
}
