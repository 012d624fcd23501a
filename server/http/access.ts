import type { Session } from "../cases/sessions.ts";
import type { Role } from "../domain/register/account.ts";
import { type Problem, problem } from "./problem.ts";

/**
 * Who may use a route. "signed in": any role with passphrase or PIN. "badge ok": any role, a bare badge included.
 * A list: these roles, with passphrase or PIN.
 */
export type Access = "anyone" | "signed in" | "badge ok" | readonly Role[];

/** Says why a session may not use a route, or undefined when it may. */
export function refuseAccess(access: Access, session: Session | undefined): Problem | undefined {
  if (access === "anyone") return undefined;
  if (!session) {
    return problem("not-signed-in", "Next: sign in, or scan your badge for a turn-in.", {
      headers: { "www-authenticate": "Layertrail" },
    });
  }
  if (access === "badge ok") return undefined;
  if (access !== "signed in" && !access.includes(session.role)) {
    return problem("role-may-not", `It needs: ${access.join(", ")}. You are signed in as ${session.role}.`);
  }
  if (session.strength === "badge") {
    return problem("badge-may-not", "Next: enter your PIN, or sign in with your passphrase.");
  }
  return undefined;
}
