import type { MiddlewareHandler } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import { readSession } from "../cases/sessions.ts";
import type { AppContext, AppEnv, Services } from "./services.ts";

/**
 * Names the session cookie. Cookies do not part ports, so the name carries the data folder's id; over https the
 * prefix binds it to this host and path. Source: RFC 6265bis section 4.1.3, `__Host-`.
 */
export function sessionCookieName({
  departmentId,
  isHttps,
}: Pick<Services, "departmentId" | "isHttps">): string {
  return `${isHttps ? "__Host-" : ""}layertrail-${departmentId.replace(/[^A-Za-z0-9-]/g, "")}`;
}

/** Reads who is signed in from the database, each time: another process may have ended the session meanwhile. */
export function readSignedIn(services: Services): MiddlewareHandler<AppEnv> {
  const name = sessionCookieName(services);
  return async (context, next) => {
    const token = getCookie(context, name);
    if (token) {
      const session = await readSession(services.db, token, services.now());
      if (session) {
        context.set("session", session);
        context.set("sessionToken", token);
      }
    }
    await next();
  };
}

/** Puts a session's token into the cookie: out of reach of scripts, sent to our own pages alone. */
export function setSessionCookie(
  context: AppContext,
  services: Services,
  session: { readonly token: string; readonly lastsMs: number },
): void {
  setCookie(context, sessionCookieName(services), session.token, {
    httpOnly: true,
    sameSite: "Strict",
    secure: services.isHttps,
    path: "/",
    maxAge: Math.floor(session.lastsMs / 1000),
  });
}

/** Takes the session cookie off the device. */
export function dropSessionCookie(context: AppContext, services: Services): void {
  deleteCookie(context, sessionCookieName(services), { path: "/", secure: services.isHttps });
}
