import { phraseRefusal, sayPhrase } from "../../../server/domain/refusal-words.ts";
import type { Trouble } from "../../api/answer.ts";

/** Puts what the server found under the field that it is about: the last step of each fault's path names it. */
export function troubleByField(trouble: Trouble | undefined): Readonly<Record<string, string>> {
  const found: Record<string, string> = {};
  for (const { path, says } of trouble?.faults ?? []) {
    const field = path.split(".").findLast((step) => !/^\d+$/.test(step));
    if (field) found[field] ??= `${says.charAt(0).toUpperCase()}${says.slice(1)}.`;
  }
  for (const refusal of trouble?.refusals ?? []) {
    if (refusal.code !== "serial-taken") continue;
    found["serial"] = sayPhrase(phraseRefusal(refusal, trouble?.names ?? {}));
  }
  return found;
}
