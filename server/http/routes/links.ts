import { z } from "@hono/zod-openapi";
import {
  type LinkUse,
  lookAtLink,
  makeLink,
  useAccountLink,
  useFirstManagerLink,
} from "../../cases/one-time-links.ts";
import { startAtBench } from "../../cases/sign-in.ts";
import type { AccountId } from "../../domain/ids.ts";
import { ROLES } from "../../domain/register/account.ts";
import { answerSignIn, me } from "../answer-sign-in.ts";
import { readBenchToken } from "../bench-cookie.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import type { AppContext, Services } from "../services.ts";
import { id, instantText, line, newPassphrase, newPin, signInName, toInstantText } from "../wire.ts";

/** The secret of a one-time link, which came after `#` and goes in the body. */
const token = z.string().min(1).max(100);
const pin = newPin.exactOptional();
const SPENT = "It was used, or its day is over. Next: ask the program manager for a new one.";

/** One-time links: looked at, used once, and made by the program manager. */
export const linkRoutes = [
  defineRoute(
    {
      method: "post",
      path: "/api/links/look",
      roles: "anyone",
      summary: "What a one-time link is for",
      body: z.object({ token }),
      answer: z.object({
        purpose: z.enum(["first manager", "join", "new passphrase"]),
        expiresAt: instantText,
        name: z.string().optional(),
        role: z.enum(ROLES).optional(),
        signInName: z.string().optional(),
      }),
    },
    async ({ body, services }) => {
      const seen = await lookAtLink(services.db, body.token, services.now());
      if (!seen) throw problem("link-spent", SPENT);
      const { expiresAtMs, ...rest } = seen;
      return { ...rest, expiresAt: toInstantText(expiresAtMs) };
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/links/first-manager",
      roles: "anyone",
      summary: "Use the link that makes the first program manager",
      body: z.object({ token, name: line(200), signInName, passphrase: newPassphrase, pin }),
      answer: me,
    },
    async ({ body, services, context }) => {
      const { token: secret, ...chosen } = body;
      const used = await useFirstManagerLink(services.db, secret, chosen, services.now(), "server");
      return signInAfter(used, context, services);
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/links/join",
      roles: "anyone",
      summary: "Use the link that joins an account: choose a sign-in name and a passphrase",
      body: z.object({ token, signInName, passphrase: newPassphrase, pin }),
      answer: me,
    },
    async ({ body, services, context }) => {
      const { token: secret, ...chosen } = body;
      return signInAfter(
        await useAccountLink(services.db, secret, chosen, services.now()),
        context,
        services,
      );
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/links/new-passphrase",
      roles: "anyone",
      summary: "Use the link that takes a new passphrase",
      body: z.object({ token, passphrase: newPassphrase, pin }),
      answer: me,
    },
    async ({ body, services, context }) => {
      const { token: secret, ...chosen } = body;
      return signInAfter(
        await useAccountLink(services.db, secret, chosen, services.now()),
        context,
        services,
      );
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/accounts/{account}/link",
      roles: ["program manager"],
      summary: "Make a one-time link for an account; an older one of the same purpose ends",
      params: z.object({ account: id<AccountId>() }),
      body: z.object({ purpose: z.enum(["join", "new passphrase"]) }),
      answer: z.object({ token: z.string(), path: z.string(), expiresAt: instantText }),
    },
    async ({ params, body, session, services }) => {
      const wanted = { purpose: body.purpose, account: params.account, madeBy: session.account };
      const link = await makeLink(services.db, wanted, services.now());
      if (!link) throw problem("not-found", "There is no such open account. Next: open it first.");
      return {
        token: link.token,
        path: `/link#${link.token}`,
        expiresAt: toInstantText(link.expiresAtMs),
      };
    },
  ),
] as const;

async function signInAfter(used: LinkUse, context: AppContext, services: Services) {
  if ("refused" in used) {
    if (used.refused === "sign-in name taken") {
      throw problem(
        "sign-in-name-taken",
        "Somebody signs in with it. Next: choose another; the link still opens.",
      );
    }
    throw problem("link-spent", SPENT);
  }
  const at = { benchToken: readBenchToken(context, services), nowMs: services.now() };
  const started = await startAtBench(services.db, used.account, at);
  return answerSignIn(context, services, { started }, SPENT);
}
