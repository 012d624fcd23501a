import type { Refusal } from "../domain/refusal.ts";

/** A problem as RFC 9457 describes it, with the code and, for a refused act, the reasons and their names. */
export interface ProblemBody {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly code: string;
  readonly refusals?: readonly Refusal[];
  readonly names?: Readonly<Record<string, string>>;
  readonly faults?: readonly InputFault[];
}

/** One place in the request that is not as it must be. */
export interface InputFault {
  readonly in: "params" | "query" | "body";
  /** Steps into the value, joined by dots: `command.pieces.0.piece`. */
  readonly path: string;
  readonly says: string;
}

/** Status and title of each problem that is no refusal of an act. Statuses: RFC 9110 section 15, 6585 section 4. */
export const PROBLEMS = {
  "malformed-json": { status: 400, title: "The body is not JSON." },
  "unreadable-path": { status: 400, title: "The address cannot be read." },
  "not-signed-in": { status: 401, title: "Nobody is signed in." },
  "sign-in-refused": { status: 401, title: "Not signed in." },
  "role-may-not": { status: 403, title: "This is not for your role." },
  "badge-may-not": { status: 403, title: "A bare badge is enough for a turn-in only." },
  "foreign-origin": { status: 403, title: "The request comes from another site." },
  "unknown-bench": { status: 403, title: "This bench is not known." },
  "link-spent": { status: 403, title: "This link does not open anything." },
  "not-found": { status: 404, title: "There is nothing here." },
  "method-not-allowed": { status: 405, title: "This address does not take that." },
  "sign-in-name-taken": { status: 409, title: "That sign-in name is taken." },
  "too-large": { status: 413, title: "The request is too large." },
  "not-json": { status: 415, title: "The body must be application/json." },
  "unknown-host": { status: 421, title: "This host is not ours." },
  "does-not-fit": { status: 422, title: "The request is not as it must be." },
  "too-many-tries": { status: 429, title: "Too many tries." },
  fault: { status: 500, title: "Not written. The server met a fault." },
  "queue-full": { status: 503, title: "Too much long work waits." },
  "database-away": { status: 503, title: "The database is not there." },
} as const satisfies Record<string, { status: number; title: string }>;
export type ProblemCode = keyof typeof PROBLEMS;

/** Ends a request with a problem; thrown in a handler, answered in one place. */
export class Problem extends Error {
  readonly body: ProblemBody;
  readonly headers: Readonly<Record<string, string>>;
  constructor(body: ProblemBody, headers: Readonly<Record<string, string>> = {}) {
    super(body.detail);
    this.body = body;
    this.headers = headers;
  }
}

/** Makes a problem from its code. `detail` says what happened this time and what to do next. */
export function problem(
  code: ProblemCode,
  detail: string,
  more: { readonly faults?: readonly InputFault[]; readonly headers?: Readonly<Record<string, string>> } = {},
): Problem {
  const body = { type: `/api/problems/${code}`, ...PROBLEMS[code], detail, code };
  return new Problem(more.faults ? { ...body, faults: more.faults } : body, more.headers);
}

/** Writes a problem as a response. Source: RFC 9457 section 3, media type application/problem+json. */
export function answerProblem({ body, headers }: Problem): Response {
  return new Response(JSON.stringify(body), {
    status: body.status,
    headers: { "content-type": "application/problem+json", "cache-control": "no-store", ...headers },
  });
}
