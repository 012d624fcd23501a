import { HTTPException } from "hono/http-exception";
import { answerProblem, Problem, problem } from "./problem.ts";
import type { Services } from "./services.ts";

/** SQLSTATE classes and Node's codes by which a database that is away is known. Source: PostgreSQL, appendix A. */
const AWAY = /^(08\d{3}|57P0[123]|ECONNREFUSED|ECONNRESET|ENOENT|EPIPE|ETIMEDOUT)$/;

/** Answers whatever was thrown as a problem. What a fault says stays in the server; the person hears what is kept. */
export function answerFault(fault: unknown, services: Pick<Services, "onFault">): Response {
  if (fault instanceof Problem) return answerProblem(fault);
  if (fault instanceof HTTPException && fault.status < 500) {
    return answerProblem(problem("does-not-fit", fault.message));
  }
  services.onFault(fault);
  if (isAway(fault)) {
    const retry = { headers: { "retry-after": "2" } };
    return answerProblem(
      problem(
        "database-away",
        "The database does not answer. Nothing was written. Next: send it again.",
        retry,
      ),
    );
  }
  return answerProblem(
    problem("fault", "Nothing was written. Next: try again; if it stays, call who runs this server."),
  );
}

function isAway(fault: unknown): boolean {
  if (!(fault instanceof Error)) return false;
  if ("code" in fault && AWAY.test(String(fault.code))) return true;
  return /Connection terminated|timeout exceeded when trying to connect/i.test(fault.message);
}
