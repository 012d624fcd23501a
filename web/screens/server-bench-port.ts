import type { BenchList, LastLoad } from "../../server/domain/reassemble/bench-list.ts";
import type { Refusal } from "../../server/domain/refusal.ts";
import { phraseRefusal } from "../../server/domain/refusal-words.ts";
import type { ScanAnswer } from "../../server/domain/scan-answer.ts";
import type { Trouble } from "../api/answer.ts";
import type { Client, CommandName } from "../api/client.ts";
import type { BenchPort } from "./bench/bench-port.ts";
import type { RefusalWords } from "./bench/bench-run.ts";
import { sayWhen } from "./bench/describe-piece.ts";

/** Joins the bench to the server: scans are asked, acts are sent with ids of their own, refusals are put in words. */
export function serverBenchPort(client: Client, timeZone: () => string): BenchPort {
  return {
    now: Date.now,
    async scan(event, mode) {
      const query = { mode, via: event.via };
      const asked = await client.get("/api/scan/{text}", { params: { text: event.text }, query });
      if (!asked.ok) throw new Error(`${asked.problem.title} ${asked.problem.detail ?? ""}`);
      return asked.answer as unknown as ScanAnswer;
    },
    async lastLoad(machine) {
      const asked = await client.get("/api/machines/{machine}/last-load", { params: { machine } });
      if (!asked.ok) throw new Error(`${asked.problem.title} ${asked.problem.detail ?? ""}`);
      return (asked.answer as unknown as LastLoad).pieces;
    },
    async benchList(pieces) {
      const asked = await client.post("/api/bench-list", { body: { pieces: [...pieces] } });
      if (!asked.ok) throw new Error(`${asked.problem.title} ${asked.problem.detail ?? ""}`);
      return asked.answer as unknown as BenchList;
    },
    async act(command, body, at) {
      const act = client.newAct(command as CommandName, body as never, at);
      const sent = await client.sendAct(act);
      if (sent.ok) return { written: { id: act.id, at: Date.parse(sent.answer.at) } };
      const refused = refusalWords(sent.problem, timeZone());
      if (refused.length > 0) return { refused };
      return { fault: `${sent.problem.title} ${sent.problem.detail ?? ""}` };
    },
  };
}

/** Puts each refusal of a problem in words, with what it is about named. */
export function refusalWords(problem: Trouble, timeZone: string): readonly RefusalWords[] {
  const refusals = (problem.refusals ?? []) as readonly Refusal[];
  const when = (at: number) => sayWhen(new Date(at).toISOString(), Date.now(), timeZone);
  return refusals.map((refusal) => {
    const { what, why, next } = phraseRefusal(refusal, problem.names ?? {}, when);
    return {
      what,
      ...(why ? { why } : {}),
      ...(next ? { next: `${next}.` } : {}),
      isHold: refusal.code === "held",
      isLabels: refusal.code === "labels",
      ...(refusal.code === "does-not-fit-the-record"
        ? { piece: refusal.subject, offers: refusal.offers }
        : {}),
    };
  });
}
