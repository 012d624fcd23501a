import { z } from "@hono/zod-openapi";
import { drawTraceReport } from "../../../labels/papers/trace-report.ts";
import { listTraces, previewTrace, readKeptTrace, zoneOfDepartment } from "../../cases/kept-traces.ts";
import {
  closeTraceAct,
  keepTraceAct,
  recordOutcomeAct,
  reopenTraceAct,
  traceAnewAct,
} from "../../cases/trace-acts.ts";
import type { EventId, LoadId, MachineId, MemberId, PieceId, PlaceId, ProviderId } from "../../domain/ids.ts";
import { writeCsvFile } from "../../domain/intake/csv-write.ts";
import type { Role } from "../../domain/register/account.ts";
import { contactRows } from "../../domain/tracing/contact-words.ts";
import { OUTCOMES, type TraceListed, type TraceView } from "../../domain/tracing/trace-view.ts";
import { answerCsv, answerFile } from "../answer-file.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { whenInZone } from "../when-in-zone.ts";
import { id, instant, line, note } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

/** Who sees where gear of everybody was: a trace names who has it. */
const READS: readonly Role[] = ["technician", "inspector", "program manager", "reader"];
const WORKS: readonly Role[] = ["technician", "inspector", "program manager"];
const MANAGES: readonly Role[] = ["program manager"];
const MOST_PIECES = 500;

const NOT_KEPT = "No trace with this id was kept. Next: choose one from the list.";

const during = { from: instant, to: instant };
const start = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("pieces"),
    pieces: z.array(id<PieceId>()).min(1).max(MOST_PIECES),
    at: instant,
  }),
  z.object({ kind: z.literal("member"), member: id<MemberId>(), ...during }),
  z.object({ kind: z.literal("load"), load: id<LoadId>() }),
  z.object({ kind: z.literal("machine"), machine: id<MachineId>(), ...during }),
  z.object({ kind: z.literal("place"), place: id<PlaceId>(), ...during }),
  z.object({ kind: z.literal("provider"), provider: id<ProviderId>(), ...during }),
  z.object({ kind: z.literal("event"), event: id<EventId>() }),
]);
const asked = z.object({
  start,
  direction: z.enum(["forward", "backward"]),
  hops: z.int().min(1).max(20).default(2),
  until: instant.exactOptional(),
  carriers: z
    .array(z.enum(["closed", "shared"]))
    .min(1)
    .max(2)
    .default(["closed", "shared"]),
  kinds: z.array(line(40)).max(12).exactOptional(),
});

const traceView = shown<TraceView>(
  "TraceView",
  "Possible contacts with their paths, and the picture of where pieces were. Instants are ISO 8601.",
);
const traceList = shown<{ readonly traces: readonly TraceListed[] }>(
  "TraceList",
  "Kept traces, newest first.",
);

export const traceRoutes = [
  defineRoute(
    {
      method: "post",
      path: "/api/trace",
      roles: READS,
      summary:
        "Traces the record as it stands, without keeping anything; within 2 steps and 30 days unless said",
      body: asked,
      answer: traceView,
    },
    async ({ body, services: { db, now } }) => {
      const view = await previewTrace(db, body, now());
      if (view) return view;
      throw problem(
        "not-found",
        "By the record no piece was there then. Next: choose another start or time.",
      );
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/traces",
      roles: READS,
      summary: "Kept traces, newest first",
      answer: traceList,
    },
    async ({ services: { db } }) => ({ traces: await listTraces(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/traces/{trace}",
      roles: READS,
      summary: "A kept trace with the outcomes so far, and whether it is older than the record",
      params: z.object({ trace: id() }),
      answer: traceView,
    },
    async ({ params: { trace }, services: { db, now } }) => {
      const view = await readKeptTrace(db, trace, now());
      if (view) return view;
      throw problem("not-found", NOT_KEPT);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/traces/{trace}/list.csv",
      roles: READS,
      summary: "The list of a kept trace as a sortable spreadsheet, one row a possible contact",
      params: z.object({ trace: id() }),
      answerType: "text/csv",
    },
    async ({ params: { trace }, services: { db, now } }) => {
      const view = await readKeptTrace(db, trace, now());
      if (!view) throw problem("not-found", NOT_KEPT);
      return answerCsv(`${view.kept?.name ?? "trace"}.csv`, writeCsvFile(contactRows(view)));
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/traces/{trace}/report.pdf",
      roles: READS,
      summary:
        "The report of a kept trace: its list with paths and outcomes, what cannot be excluded, what was not followed",
      params: z.object({ trace: id() }),
      answerType: "application/pdf",
    },
    async ({ params: { trace }, services: { db, now } }) => {
      const view = await readKeptTrace(db, trace, now());
      if (!view) throw problem("not-found", NOT_KEPT);
      const body = await drawTraceReport(view, whenInZone(await zoneOfDepartment(db)));
      const name = `${view.kept?.name ?? "trace"}.pdf`;
      return answerFile({ name, body, type: "application/pdf", shown: "inline" });
    },
  ),
] as const;

export const TRACE_ACTS = [
  defineAct({
    command: "keepTrace",
    summary: "Keeps a trace as a list to work through; a drill places no holds",
    roles: WORKS,
    schema: z.object({ id: id(), name: line(80), isDrill: z.boolean(), asked }),
    act: keepTraceAct,
  }),
  defineAct({
    command: "traceAnew",
    summary: "Walks a kept trace anew on today's record; outcomes stay with their pieces",
    roles: WORKS,
    schema: z.object({ trace: id() }),
    act: traceAnewAct,
  }),
  defineAct({
    command: "recordOutcome",
    summary: "Says what became of pieces on a trace's list",
    roles: WORKS,
    schema: z.object({
      trace: id(),
      pieces: z
        .array(z.object({ piece: id<PieceId>(), evidence: z.enum(["scanned", "typed", "described"]) }))
        .min(1)
        .max(MOST_PIECES),
      outcome: z.enum(OUTCOMES),
      reason: note.exactOptional(),
    }),
    act: recordOutcomeAct,
  }),
  defineAct({
    command: "closeTrace",
    summary: "Closes a trace of which each possible contact has an outcome",
    roles: MANAGES,
    schema: z.object({ trace: id() }),
    act: closeTraceAct,
  }),
  defineAct({
    command: "reopenTrace",
    summary: "Opens a closed trace again",
    roles: MANAGES,
    schema: z.object({ trace: id(), reason: note.exactOptional() }),
    act: reopenTraceAct,
  }),
];
