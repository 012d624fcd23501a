import type { PieceId } from "../domain/ids.ts";
import { checkBriefs, joinFacts } from "../domain/label-check/check-briefs.ts";
import type { LabelCheck } from "../domain/label-check/label-verdict.ts";
import { compareWithRecord, type RecordNote } from "../domain/label-check/recorded-fitting.ts";
import type { Named, Names } from "../domain/piece-view.ts";
import type { Db } from "../store/db.ts";
import { lastLayerOf } from "../store/fitted-last.ts";
import { type GarmentOnRecord, lookUp } from "../store/look-up.ts";

/** A label check of two pieces on the bench, with how the layer stands to the shell's record. */
export interface LabelCheckShown {
  /** Absent where one of them is not what it should be, and for a coverall. */
  readonly check?: LabelCheck;
  readonly record: readonly RecordNote<Named>[];
  readonly names: Names;
}

/** Checks a layer against a shell as both are on record now. Undefined when one of them is not on record. */
export async function checkLabelsOnRecord(
  db: Db,
  shell: PieceId,
  layer: PieceId,
): Promise<LabelCheckShown | undefined> {
  const [outer, inner] = await Promise.all([garment(db, shell), garment(db, layer)]);
  const [one, other] = [outer?.briefs.get(shell), inner?.briefs.get(layer)];
  if (!outer || !inner || !one || !other) return undefined;
  const check = checkBriefs(one, other, joinFacts(outer.facts, inner.facts));
  const now = outer.fittings.find(
    (fitting) => fitting.shell === shell && fitting.layerKind === other.kind.code,
  );
  const last = now ? undefined : await lastLayerOf(db, shell, other.kind.code);
  const lastSeen = last && (await garment(db, last))?.briefs.get(last);
  const layerIn = inner.root === layer ? undefined : inner.briefs.get(inner.root);
  const fitted = now && outer.briefs.get(now.layer);
  return {
    ...(check ? { check } : {}),
    record: compareWithRecord<Named>({
      shell,
      layer,
      ...(fitted ? { fittedNow: { pieceId: fitted.id, where: fitted.holder } } : {}),
      ...(lastSeen ? { fittedLast: { pieceId: lastSeen.id, where: lastSeen.holder } } : {}),
      ...(layerIn ? { layerFittedIn: { pieceId: layerIn.id, where: layerIn.holder } } : {}),
    }),
    names: { ...outer.names, ...inner.names },
  };
}

async function garment(db: Db, piece: PieceId): Promise<GarmentOnRecord | undefined> {
  return (await lookUp(db, { piece }))?.garment;
}
