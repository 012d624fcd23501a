import { z } from "@hono/zod-openapi";
import { closeAccountAct, giveBadgeAct, giveRoleAct, openAccountAct } from "../../cases/account-acts.ts";
import type { AccountId, MemberId, PlaceId } from "../../domain/ids.ts";
import { ROLES, type Role } from "../../domain/register/account.ts";
import { id, line } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const MANAGES: readonly Role[] = ["program manager"];

const being = {
  account: id<AccountId>(),
  role: z.enum(ROLES),
  member: id<MemberId>().exactOptional(),
  station: id<PlaceId>().exactOptional(),
};
const account = z.object({ account: id<AccountId>() });

/** Who may come in, and as what. */
export const ACCOUNT_ACTS = [
  defineAct({
    command: "openAccount",
    summary: "Open an account; it is joined by a one-time link",
    roles: MANAGES,
    schema: z.object({ ...being, name: line(200).exactOptional() }),
    act: openAccountAct,
  }),
  defineAct({
    command: "giveRole",
    summary: "Give an account another role",
    roles: MANAGES,
    schema: z.object(being),
    act: giveRoleAct,
  }),
  defineAct({
    command: "giveBadge",
    summary: "Give an account a badge with a number of its own",
    roles: MANAGES,
    schema: account,
    act: giveBadgeAct,
  }),
  defineAct({
    command: "closeAccount",
    summary: "Close an account; whoever is signed in with it is out at once",
    roles: MANAGES,
    schema: account,
    act: closeAccountAct,
  }),
] as const;
