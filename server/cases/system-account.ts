import type { AccountId } from "../domain/ids.ts";
import type { Role } from "../domain/register/account.ts";

/** Who acts when no person does: the first start, and whatever the program writes by itself. It can never sign in. */
export const SYSTEM_ACCOUNT = "00000000-0000-7000-8000-000000000001" as AccountId;
/** What the record calls it. */
export const SYSTEM_NAME = "Layertrail itself";
/** The role that may do least: the cases that it runs ask for none. */
export const SYSTEM_ROLE: Role = "reader";
