import type { MemberId, OutsideId, PlaceId, ProviderId, Uuid } from "../ids.ts";

/** Who or what has custody of a piece. Every piece has exactly one holder at every instant. */
export type Holder =
  | { readonly kind: "place"; readonly id: PlaceId }
  | { readonly kind: "member"; readonly id: MemberId }
  | { readonly kind: "provider"; readonly id: ProviderId }
  | { readonly kind: "outside"; readonly id: OutsideId }
  | { readonly kind: "in transit" }
  | { readonly kind: "whereabouts unknown" };

export const WHEREABOUTS_UNKNOWN: Holder = { kind: "whereabouts unknown" };

/** Gives the id of a holder, or undefined for in transit and whereabouts unknown. */
export function holderId(holder: Holder): Uuid | undefined {
  return "id" in holder ? holder.id : undefined;
}

/** Tells whether two holders are the same one. */
export function isSameHolder(a: Holder, b: Holder): boolean {
  return a.kind === b.kind && holderId(a) === holderId(b);
}
