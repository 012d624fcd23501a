import { z } from "@hono/zod-openapi";
import { changeOwnSecrets } from "../../cases/own-secrets.ts";
import { signOut } from "../../cases/sessions.ts";
import { signIn, signInByBadge } from "../../cases/sign-in.ts";
import { answerSignIn, describeSession, me, signInRefused } from "../answer-sign-in.ts";
import { readBenchToken } from "../bench-cookie.ts";
import { defineRoute } from "../define-route.ts";
import { dropSessionCookie } from "../session-cookie.ts";
import { newPassphrase, newPin, secretText, tagNumber } from "../wire.ts";

/** Who is at the bench: sign in, change the person, sign out. */
export const signInRoutes = [
  defineRoute(
    {
      method: "post",
      path: "/api/sign-in",
      roles: "anyone",
      summary: "Sign in with name and passphrase",
      body: z.object({ signInName: secretText, passphrase: secretText }),
      answer: me,
      bodyLimitBytes: 4096,
    },
    async ({ body, services, context }) => {
      const at = { benchToken: readBenchToken(context, services), nowMs: services.now() };
      const answer = await signIn(services.db, body, at);
      return answerSignIn(
        context,
        services,
        answer,
        "Name and passphrase do not go together. Next: type both again.",
      );
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/bench/change-person",
      roles: "anyone",
      summary: "Change the person at a bench by badge and PIN; a bare badge is enough for a turn-in",
      body: z.object({ badge: tagNumber, pin: newPin.exactOptional() }),
      answer: me,
      bodyLimitBytes: 4096,
    },
    async ({ body, services, context }) => {
      const at = { benchToken: readBenchToken(context, services), nowMs: services.now() };
      const answer = await signInByBadge(services.db, { badge: body.badge, pin: body.pin }, at);
      return answerSignIn(
        context,
        services,
        answer,
        "Badge and PIN do not go together. Next: scan the badge again, or sign in with your passphrase.",
      );
    },
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/sign-out",
      roles: "anyone",
      summary: "Sign out; signing out twice is no trouble",
      body: z.object({}),
    },
    async ({ services, context }) => {
      const token = context.get("sessionToken");
      if (token) await signOut(services.db, token, services.now());
      dropSessionCookie(context, services);
      return undefined;
    },
  ),
  defineRoute(
    { method: "get", path: "/api/me", roles: "badge ok", summary: "Who is signed in", answer: me },
    async ({ session }) => describeSession(session),
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/me/secrets",
      roles: "signed in",
      summary: "Change one's own passphrase or PIN; a new passphrase signs out everywhere",
      body: z.object({
        passphrase: secretText,
        newPassphrase: newPassphrase.exactOptional(),
        newPin: newPin.exactOptional(),
      }),
      bodyLimitBytes: 4096,
    },
    async ({ body, session, services }) => {
      const changed = await changeOwnSecrets(services.db, session.account, body, services.now());
      if (changed === true) return undefined;
      throw signInRefused(changed, "That is not your passphrase. Next: type it again.", services.now());
    },
  ),
] as const;
