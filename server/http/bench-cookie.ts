import { getCookie, setCookie } from "hono/cookie";
import type { AppContext, Services } from "./services.ts";
import { sessionCookieName } from "./session-cookie.ts";

/** The longest that browsers keep a cookie. Source: RFC 6265bis section 5.5, 400 days. */
const KEPT_S = 400 * 86_400;

function benchCookieName(services: Services): string {
  return `${sessionCookieName(services)}-bench`;
}

/** Reads by what a bench is known. */
export function readBenchToken(context: AppContext, services: Services): string | undefined {
  return getCookie(context, benchCookieName(services));
}

/** Leaves a bench its token. It signs nobody in: it says that somebody signed in here with a passphrase before. */
export function setBenchCookie(context: AppContext, services: Services, token: string): void {
  setCookie(context, benchCookieName(services), token, {
    httpOnly: true,
    sameSite: "Strict",
    secure: services.isHttps,
    path: "/",
    maxAge: KEPT_S,
  });
}
