import { z } from "@hono/zod-openapi";
import { nameRefusals } from "../../cases/name-refusals.ts";
import { type Act, type ActEnvelope, runAct } from "../../cases/run-act.ts";
import type { ActId } from "../../domain/ids.ts";
import type { Refusal } from "../../domain/refusal.ts";
import { phraseRefusal, sayPhrase } from "../../domain/refusal-words.ts";
import type { Access } from "../access.ts";
import { defineRoute, type Route } from "../define-route.ts";
import { Problem } from "../problem.ts";
import { statusOfRefusals } from "../refusal-status.ts";
import type { Services } from "../services.ts";
import { whenInZone } from "../when-in-zone.ts";
import { id, idText, instant, instantText, line, toInstantText } from "../wire.ts";

/** One command as the wire takes it: the case that decides it, its schema, and who may send it. */
export interface ActSpec<Name extends string, Command extends z.ZodType> {
  readonly command: Name;
  readonly summary: string;
  readonly roles: Access;
  readonly schema: Command;
  readonly act: Act<z.output<Command>>;
  /** Says whether exactly this command may be sent after a bare badge, by any role: a turn-in. */
  readonly badgeMay?: (command: z.output<Command>) => boolean;
}

export const writtenAct = z
  .object({
    id: idText,
    position: z.int(),
    at: instantText,
    recordedAt: instantText,
    entries: z.array(
      z.object({ subjectKind: z.string(), subject: idText, version: z.int(), kind: z.string() }),
    ),
  })
  .openapi("WrittenAct");

/** What stands around a command: the act's id and device, when it happened, when it was sent. Never who: that is the session's. */
export function envelopeAround<Command extends z.ZodType>(command: Command) {
  return z.object({
    id: id<ActId>(),
    device: line(100),
    deviceSeq: z.int().min(0),
    appBuild: line(100),
    at: instant,
    atOffsetMin: z.int().min(-840).max(840),
    sentAt: instant,
    command,
  });
}

type EnvelopeSchema<Command extends z.ZodType> = ReturnType<typeof envelopeAround<Command>>;
export type ActRoute<Name extends string, Command extends z.ZodType> = Route<
  "post",
  `/api/acts/${Name}`,
  Access,
  z.ZodUndefined,
  z.ZodUndefined,
  EnvelopeSchema<Command>,
  typeof writtenAct
>;

/** Makes the route of one command: POST /api/acts/{command}. The same act sent again gets its first answer. */
export function defineAct<const Name extends string, Command extends z.ZodType>(
  spec: ActSpec<Name, Command>,
): ActRoute<Name, Command> {
  if (spec.act.name !== spec.command) throw new Error(`${spec.command} runs the case ${spec.act.name}.`);
  const { badgeMay } = spec;
  return defineRoute<
    "post",
    `/api/acts/${Name}`,
    Access,
    z.ZodUndefined,
    z.ZodUndefined,
    EnvelopeSchema<Command>,
    typeof writtenAct
  >(
    {
      method: "post",
      path: `/api/acts/${spec.command}`,
      roles: spec.roles,
      summary: spec.summary,
      body: envelopeAround(spec.schema),
      answer: writtenAct,
    },
    async ({ body, session, services }) => {
      const { command, ...sent } = body as Omit<ActEnvelope, "by" | "role"> & { command: z.output<Command> };
      if (!session) throw new Error("An act route let in somebody who is not signed in.");
      const envelope = { ...sent, by: session.account, role: session.role };
      const outcome = await runAct(services.db, spec.act, command, envelope, services.now());
      if ("refusals" in outcome) throw await refused(services, outcome.refusals);
      const { id: act, position, at, recordedAt, entries } = outcome.written;
      return {
        id: act,
        position,
        at: toInstantText(at),
        recordedAt: toInstantText(recordedAt),
        entries: [...entries],
      };
    },
    badgeMay && ((body) => badgeMay((body as { command: z.output<Command> }).command)),
  );
}

/** Makes the problem of a refused act: every reason, the names of what it is about, and the words for a person. */
export async function refused(services: Services, refusals: readonly Refusal[]): Promise<Problem> {
  const { names, timeZone } = await nameRefusals(services.db, refusals);
  const when = whenInZone(timeZone);
  const code = refusals[0]?.code ?? "refused";
  return new Problem({
    type: "/api/problems/refused",
    title: refusals.length === 1 ? "Not written. One reason." : `Not written. ${refusals.length} reasons.`,
    status: statusOfRefusals(refusals),
    detail: refusals.map((refusal) => sayPhrase(phraseRefusal(refusal, names, when))).join(" "),
    code: refusals.length === 1 ? code : "refused",
    refusals,
    names,
  });
}
