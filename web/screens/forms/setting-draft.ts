/** The department's settings as they are typed; only what changed is written, each as an entry of its own. */
import {
  isLimit,
  LIMIT_SETTINGS,
  type LimitSetting,
} from "../../../server/domain/cleaning/programme-limits.ts";
import type { Settings } from "../../../server/domain/register/policy.ts";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isOneLine } from "./field-rules.ts";
import type { Problems } from "./register-draft.ts";

const NAMES = [
  ...(["department name", "department code", "labels not read"] as const),
  ...(["screen words", "time zone"] as const),
  ...(Object.keys(LIMIT_SETTINGS) as LimitSetting[]),
] as const;
/** Longest texts. Source: schema of setSettings. */
const LONGEST = { "department name": 200, "department code": 20, "time zone": 64 } as const;
const words = FORM_WORDS;

/** Finds what is wrong: too long, emptied after it was set, or a time zone that this browser does not know. */
export function settingProblems(before: Settings, draft: Settings): Problems<Settings> {
  const problems: Partial<Record<keyof Settings, string>> = {};
  for (const [name, max] of Object.entries(LONGEST) as [keyof typeof LONGEST, number][]) {
    if (draft[name].trim() === "" && before[name] !== "") problems[name] = words.notEmptied;
    if (!isOneLine(draft[name], max)) problems[name] = words.oneLine(max);
  }
  if (!isTimeZone(draft["time zone"].trim())) problems["time zone"] = words.timeZoneWrong;
  for (const name of Object.keys(LIMIT_SETTINGS) as LimitSetting[]) {
    const { least, most } = LIMIT_SETTINGS[name];
    if (!isLimit(name, draft[name].trim())) problems[name] = CLEANING_WORDS.limitWrong(least, most);
  }
  return problems;
}

/** Gives the settings that are other than before; empty when none is. */
export function changedSettings(before: Settings, draft: Settings): Partial<Settings> {
  const changed = NAMES.filter((name) => draft[name].trim() !== before[name]);
  return Object.fromEntries(changed.map((name) => [name, draft[name].trim()]));
}

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return name !== "";
  } catch {
    return false;
  }
}
