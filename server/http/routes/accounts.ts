import { z } from "@hono/zod-openapi";
import { readAccounts } from "../../cases/read-accounts.ts";
import { ROLES } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { idText } from "../wire.ts";

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
] as const;
