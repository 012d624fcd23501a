import type { Holder } from "../custody/holder.ts";
import { checkSet, type SetCheckInput, type SetReason, type StandingHold } from "./check-set.ts";

/** Where a piece is that keeps it from being handed out here: anywhere but at a place of the department. */
export type AwayReason = { readonly code: "not-at-a-place"; readonly holder: Holder };

/** Yes, or no with every reason. What is only said comes with either. */
export type ReadyToIssue<Hold extends StandingHold = StandingHold> =
  | { readonly isReady: true; readonly notes: readonly SetReason<Hold>[] }
  | {
      readonly isReady: false;
      readonly reasons: readonly (SetReason<Hold> | AwayReason)[];
      readonly notes: readonly SetReason<Hold>[];
    };

/**
 * Tells whether a piece, or a garment with all that is fitted in it, is ready to issue: computed anew each time, never
 * kept. Give a shell with its layers, or a layer with its shell, as one set; `holder` has custody of it. It never
 * says that gear is safe or clean, and what was never recorded (fit, damage nobody saw) is not in the answer.
 */
export function readyToIssue<Hold extends StandingHold>(
  garment: Omit<SetCheckInput<Hold>, "outfit">,
  holder: Holder,
): ReadyToIssue<Hold> {
  const { stops, notes } = checkSet({ ...garment, outfit: [] });
  const away: readonly AwayReason[] = holder.kind === "place" ? [] : [{ code: "not-at-a-place", holder }];
  const reasons = [...stops, ...away];
  return reasons.length === 0 ? { isReady: true, notes } : { isReady: false, reasons, notes };
}
