import { z } from "@hono/zod-openapi";
import { setSettingsAct } from "../../cases/rule-acts.ts";
import { isLimit, LIMIT_SETTINGS, type LimitSetting } from "../../domain/cleaning/programme-limits.ts";
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
    "wash temperature, most °F": limit("wash temperature, most °F").exactOptional(),
    "wash temperature, most °C": limit("wash temperature, most °C").exactOptional(),
    "detergent pH, least": limit("detergent pH, least").exactOptional(),
    "detergent pH, most": limit("detergent pH, most").exactOptional(),
    "extraction, most G": limit("extraction, most G").exactOptional(),
  })
  .refine((given) => Object.keys(given).length > 0, "must set something");

/** Settings hold text: a figure with at most one decimal. */
function limit(name: LimitSetting) {
  const { least, most } = LIMIT_SETTINGS[name];
  return line(8).refine(
    (text) => isLimit(name, text),
    `must be a figure from ${least} to ${most}, such as 10.5`,
  );
}

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
