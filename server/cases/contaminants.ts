import type { ContaminantsShown } from "../domain/contamination/event-views.ts";
import type { Db } from "../store/db.ts";
import { readRules, ruleChanges } from "../store/event-rows.ts";
import { askNames, nameAccount, namesFromRows } from "../store/names.ts";
import { readOnly } from "../store/snapshot.ts";

/** Shows what each kind of contaminant asks for, value by value, and every change of it. */
export function readContaminants(db: Db): Promise<ContaminantsShown> {
  return readOnly(db, async (tx) => {
    const { rules, own } = await readRules(tx);
    const changes = await ruleChanges(tx);
    const names = namesFromRows(
      await askNames(
        tx,
        changes.map(({ by }) => by),
      ),
    );
    return {
      rules: rules.map((rule) => ({ ...rule, isOwn: own.has(rule.code) })),
      history: changes.map(({ version, at, by, rule, note }) => ({
        ...{ version, rule, at: at.toISOString(), by: nameAccount(by, names) },
        ...(note ? { note } : {}),
      })),
    };
  });
}
