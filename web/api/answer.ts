import type { ProblemBody } from "../../server/http/app-type.ts";

/** A problem as the server says it, or as this device finds it when no server answers (`status` 0). */
export type Trouble = ProblemBody;
export type Answer<Value> =
  | { readonly ok: true; readonly answer: Value }
  | { readonly ok: false; readonly problem: Trouble };

/** Codes of the troubles that a device finds by itself. */
export const NO_NETWORK = "no-network";
export const NOT_UNDERSTOOD = "not-understood";

/** Nothing answered: the network is down, or the server. */
export function noNetwork(): Trouble {
  return {
    type: "about:blank",
    title: "No network.",
    status: 0,
    detail: "The server does not answer. Next: check the network; what is on the tray is kept.",
    code: NO_NETWORK,
  };
}

/** Turns a response into a value or a problem. Never throws: what is no problem document becomes one. */
export async function readAnswer<Value>(response: Response): Promise<Answer<Value>> {
  const type = response.headers.get("content-type")?.split(";")[0] ?? "";
  if (response.ok) {
    if (response.status === 204) return { ok: true, answer: undefined as Value };
    try {
      const value = type === "application/json" ? await response.json() : await response.blob();
      return { ok: true, answer: value as Value };
    } catch {
      return { ok: false, problem: notUnderstood(response.status) };
    }
  }
  if (type !== "application/problem+json") return { ok: false, problem: notUnderstood(response.status) };
  try {
    return { ok: false, problem: (await response.json()) as Trouble };
  } catch {
    return { ok: false, problem: notUnderstood(response.status) };
  }
}

function notUnderstood(status: number): Trouble {
  return {
    type: "about:blank",
    title: "The answer cannot be read.",
    status,
    detail: "Something between here and the server answered in its place. Next: load the page again.",
    code: NOT_UNDERSTOOD,
  };
}
