import { z } from "@hono/zod-openapi";
import { readSession, type Session, signOut } from "../cases/sessions.ts";
import type { NotSignedIn, SignInAnswer } from "../cases/sign-in.ts";
import { ROLES } from "../domain/register/account.ts";
import { setBenchCookie } from "./bench-cookie.ts";
import { type Problem, problem } from "./problem.ts";
import type { AppContext, Services } from "./services.ts";
import { setSessionCookie } from "./session-cookie.ts";
import { idText } from "./wire.ts";

/** Who is signed in, as every screen shows it. */
export const me = z
  .object({
    account: idText,
    name: z.string(),
    role: z.enum(ROLES),
    strength: z.enum(["full", "badge"]),
    member: idText.optional(),
    station: idText.optional(),
  })
  .openapi("Me");

/** Says who a session signs in. */
export function describeSession({
  account,
  name,
  role,
  strength,
  member,
  station,
}: Session): z.output<typeof me> {
  return { account, name, role, strength, ...(member ? { member } : {}), ...(station ? { station } : {}) };
}

/** Signs the browser in: ends who was signed in before, leaves the cookies, and says who it is now. */
export async function answerSignIn(
  context: AppContext,
  services: Services,
  answer: SignInAnswer,
  wrong: string,
): Promise<z.output<typeof me>> {
  if ("refused" in answer) throw signInRefused(answer, wrong, services.now());
  const { started } = answer;
  const before = context.get("sessionToken");
  if (before) await signOut(services.db, before, services.now());
  setSessionCookie(context, services, started);
  if (started.benchToken) setBenchCookie(context, services, started.benchToken);
  const session = await readSession(services.db, started.token, services.now());
  if (!session) throw signInRefused({ refused: "wrong" }, wrong, services.now());
  return describeSession(session);
}

/** Says why nobody is signed in, without saying which part was wrong. */
export function signInRefused(answer: NotSignedIn, wrong: string, nowMs: number): Problem {
  if (answer.refused === "locked") {
    const seconds = Math.ceil((answer.untilMs - nowMs) / 1000);
    const minutes = Math.ceil(seconds / 60);
    return problem(
      "too-many-tries",
      `Nothing is tried for ${minutes} more ${minutes === 1 ? "minute" : "minutes"}. Next: wait, or ask the program manager for a link.`,
      { headers: { "retry-after": String(seconds) } },
    );
  }
  if (answer.refused === "unknown bench") {
    return problem(
      "unknown-bench",
      "Nobody has signed in here yet. Next: sign in with your passphrase once.",
    );
  }
  return problem("sign-in-refused", wrong);
}
