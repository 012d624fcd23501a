/** The handle on the department's database, for the rooms that may not import the store. */
export type { Db } from "../store/db.ts";
export { isDatabaseThere } from "../store/sign-of-life.ts";
