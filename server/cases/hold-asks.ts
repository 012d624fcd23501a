import { ruleOf } from "../domain/contamination/contaminant-rule.ts";
import type { HoldAsks } from "../domain/contamination/event-views.ts";
import { openKinds } from "../domain/contamination/standing-contamination.ts";
import type { PieceView } from "../domain/piece-view.ts";
import { foldPiece, isFault } from "../domain/pieces/piece-state.ts";
import type { Db } from "../store/db.ts";
import { eventsCounted, readRules } from "../store/event-rows.ts";
import { loadEntries } from "../store/load-subjects.ts";
import { readOnly } from "../store/snapshot.ts";

/** Adds what the contamination holds of a piece still ask for. A piece without one, as nearly all, costs no question. */
export async function withAsks(db: Db, view: PieceView): Promise<PieceView> {
  const held = view.holds.filter(({ event }) => event !== undefined);
  if (held.length === 0) return view;
  const asks = await readOnly(db, async (tx): Promise<HoldAsks[]> => {
    const state = foldPiece(view.id, (await loadEntries(tx, "piece", [view.id])).get(view.id) ?? []);
    if (isFault(state)) return [];
    const { rules } = await readRules(tx);
    const told: HoldAsks[] = [];
    for (const { version, event } of held) {
      const row = event && (await eventsCounted(tx, event))[0];
      if (!row) continue;
      const kinds = row.kinds.map((code) => ruleOf(rules, code));
      told.push({
        version,
        event: { kind: "contamination-event", id: row.id, name: row.name },
        open: openKinds(state, row.id, kinds).map(({ code, name, endedBy }) => ({
          ...{ code, name },
          ...(endedBy.confirmed && endedBy.says !== null ? { endedBy: endedBy.says } : {}),
        })),
      });
    }
    return told;
  });
  return { ...view, asks };
}
