import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { Uuid } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { PieceDraft, RegisterState } from "../domain/register/register-pieces.ts";
import type { Tx } from "../store/db.ts";
import { unknownHolders } from "../store/known-holders.ts";
import { loadKinds } from "../store/load-rulebook.ts";
import { knownSerials, modelsByName } from "../store/register-facts.ts";

/**
 * Finds what the register has of pieces that are to come in: kinds, serials, and the model of each by its label.
 * Refuses holders and members that are not on record.
 */
export async function findForDrafts<Draft extends PieceDraft>(
  tx: Tx,
  drafts: readonly Draft[],
): Promise<
  | (Pick<RegisterState, "kinds" | "serials"> & { readonly pieces: readonly Draft[] })
  | { readonly refusals: readonly Refusal[] }
> {
  const named = drafts.flatMap(({ holder, assignment }): Holder[] =>
    assignment ? [holder, { kind: "member", id: assignment.member }] : [holder],
  );
  const once = new Map(named.map((holder) => [`${holder.kind} ${holderId(holder)}`, holder]));
  const strangers = await unknownHolders(tx, [...once.values()]);
  if (strangers.length > 0) {
    const refusals = strangers.map((holder): Refusal => {
      const subject = holderId(holder) ?? ("" as Uuid);
      return { code: "unknown-subject", subject, what: holder.kind };
    });
    return { refusals };
  }
  const modelOf = await modelsByName(tx, drafts);
  const pieces = drafts.map((draft) => {
    const model = draft.model ?? modelOf(draft.kind, draft.label);
    return model ? { ...draft, model } : draft;
  });
  return { pieces, kinds: await loadKinds(tx), serials: await knownSerials(tx, pieces) };
}
