import { z } from "@hono/zod-openapi";
import { setSettingsAct } from "../../cases/rule-acts.ts";
import { line } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const timeZone = line(64).refine(isTimeZone, "must be a time zone such as America/New_York");
const settings = z
  .strictObject({
    "department name": line(200).exactOptional(),
    "department code": line(20).exactOptional(),
    "labels not read": z.enum(["stop", "only say so"]).exactOptional(),
    "screen words": z.enum(["US", "international"]).exactOptional(),
    "time zone": timeZone.exactOptional(),
  })
  .refine((given) => Object.keys(given).length > 0, "must set something");

/** Asks the runtime's own table of zones (IANA). */
function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

/** The department's own rules: every change is an entry. */
export const SETTING_ACTS = [
  defineAct({
    command: "setSettings",
    summary: "Set the department's own rules",
    roles: ["program manager"],
    schema: z.object({ settings }),
    act: setSettingsAct,
  }),
] as const;
