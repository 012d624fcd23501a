import { onPiece } from "../domain/bench/bench-state.ts";
import type { MemberId, PieceId } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import { takePieces } from "../store/act-scope.ts";
import { nextReceipt } from "../store/found-property.ts";
import type { Act } from "./run-act.ts";

/** Keeps what was found in a piece's pockets, under a receipt whose number is drawn here. */
export interface FindProperty {
  readonly piece: PieceId;
  readonly evidence: "scanned" | "typed";
  /** What it is, and where it is kept: free text, apart from what is hashed. */
  readonly what: string;
}
export const findPropertyAct: Act<FindProperty> = {
  name: "findProperty",
  rules: "shared",
  async decide(scope, { piece, evidence, what }, { at }) {
    const state = (await takePieces(scope, [piece])).get(piece);
    if (!state) return { refusals: [{ code: "unknown-subject", subject: piece, what: "piece" }] };
    const receipt = await nextReceipt(scope.tx);
    return { entries: [onPiece(piece, { kind: "PropertyFound", at, evidence, receipt }, { what })] };
  },
};

export interface GiveBackProperty {
  readonly piece: PieceId;
  readonly receipt: string;
  readonly to?: MemberId;
  readonly note?: string;
}
export const giveBackPropertyAct: Act<GiveBackProperty> = {
  name: "giveBackProperty",
  rules: "shared",
  async decide(scope, { piece, receipt, to, note }, { at }) {
    const state = (await takePieces(scope, [piece])).get(piece);
    const found = state?.property.find((one) => one.receipt === receipt && one.givenBackAt === undefined);
    if (!found) {
      const refusal: Refusal = state
        ? { code: "nothing-to-do" }
        : { code: "unknown-subject", subject: piece, what: "piece" };
      return { refusals: [refusal] };
    }
    const entry = { kind: "PropertyGivenBack" as const, at, evidence: "described" as const, receipt };
    const texts = note === undefined ? undefined : { note };
    return { entries: [onPiece(piece, { ...entry, ...(to ? { to } : {}) }, texts)] };
  },
};
