import { z } from "@hono/zod-openapi";
import { readAccounts } from "../../cases/read-accounts.ts";
import { renamePerson } from "../../cases/rename-person.ts";
import type { AccountId } from "../../domain/ids.ts";
import { ROLES } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { id, idText, line } from "../wire.ts";

const account = z.object({
  id: idText,
  name: z.string().optional(),
  role: z.enum(ROLES),
  member: idText.optional(),
  station: idText.optional(),
  badge: z.string().optional(),
  signInName: z.string().optional(),
  hasPassphrase: z.boolean(),
  hasPin: z.boolean(),
  closed: z.boolean(),
  version: z.int(),
});

/** Who has an account, for the program manager. */
export const accountRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/accounts",
      roles: ["program manager"],
      summary: "Who may come in, and as what",
      answer: z.object({ accounts: z.array(account) }),
    },
    async ({ services }) => ({ accounts: await readAccounts(services.db) }),
  ),
  defineRoute(
    {
      method: "put",
      path: "/api/accounts/{account}/name",
      roles: ["program manager"],
      summary: "Correct the name of the person behind an account, or take it away",
      params: z.object({ account: id<AccountId>() }),
      body: z.object({ name: line(200).nullable() }),
    },
    async ({ params, body, services }) => {
      if (await renamePerson(services.db, params.account, body.name)) return undefined;
      throw problem("not-found", "There is no such account. Next: look at the list again.");
    },
  ),
] as const;
