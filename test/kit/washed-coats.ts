import { installLayerAct, recordFoundAct, separateLayersAct } from "../../server/cases/bench-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import { attachTagsAct, printTagsAct, reserveTagsAct } from "../../server/cases/tag-acts.ts";
import type { PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { Db } from "../../server/store/db.ts";
import { actor, aDraft, anId } from "./acting.ts";

/** The tags of one coat whose layers lie apart, as they come out of the dryer. */
export interface WashedCoat {
  readonly shell: TagNumber;
  readonly liner: TagNumber;
  readonly drd: TagNumber;
  readonly ids: { readonly shell: PieceId; readonly liner: PieceId; readonly drd: PieceId };
}

/** Puts coats into a seeded department that were whole, and were taken apart for the wash. All labels match. */
export async function washedCoats(db: Db, count: number): Promise<readonly WashedCoat[]> {
  const hand = actor(() => db, "program manager", new Date(Date.now() - 3_600_000).toISOString());
  const rack = await placeNamed(db, "Rack B2");
  const coats = Array.from({ length: count }, () => ({
    shell: aDraft("coat-shell", rack, { linerCode: "LK-2" }),
    liner: aDraft("coat-liner", rack, { linerCode: "LK-2" }),
    drd: aDraft("drd", rack, { linerCode: "D-1", size: "one size" }),
  }));
  const drafts = coats.flatMap(({ shell, liner, drd }) => [shell, liner, drd]);
  await hand.must(registerPiecesAct, { pieces: drafts, evidence: "scanned" });
  const run = anId<Uuid>();
  await hand.must(reserveTagsAct, { run, pieces: drafts.map(({ id }) => id) });
  await hand.must(printTagsAct, { run });
  const printed = await db.selectFrom("tag").select(["number", "meant_for"]).where("run", "=", run).execute();
  const numbers = new Map(
    printed.map(({ number, meant_for }) => [meant_for as PieceId, number as TagNumber]),
  );
  const tags = [...numbers].map(([piece, number]) => ({
    ...{ piece, number, position: "main", proof: "scanned" as const },
  }));
  await hand.must(attachTagsAct, { tags });
  const scanned = (piece: PieceId) => ({ piece, evidence: "scanned" as const });
  for (const { shell, liner, drd } of coats) {
    for (const layer of [liner, drd]) {
      await hand.must(installLayerAct, { shell: shell.id, layer: layer.id, evidence: "scanned" });
    }
  }
  await hand.must(separateLayersAct, { pieces: coats.map(({ shell }) => scanned(shell.id)) });
  const numberOf = (piece: PieceId) => numbers.get(piece) as TagNumber;
  return coats.map(({ shell, liner, drd }) => ({
    shell: numberOf(shell.id),
    liner: numberOf(liner.id),
    drd: numberOf(drd.id),
    ids: { shell: shell.id, liner: liner.id, drd: drd.id },
  }));
}

/** Records that coats were found with their liners in a circle: each has that of the next. */
export async function foundInCircle(db: Db, coats: readonly WashedCoat[]): Promise<void> {
  const hand = actor(() => db, "program manager", new Date(Date.now() - 60_000).toISOString());
  await hand.must(recordFoundAct, {
    pieces: coats.map(({ ids }) => ({ piece: ids.shell, evidence: "scanned" as const })),
    holder: { kind: "place", id: await placeNamed(db, "Rack B2") },
    fitted: coats.map(({ ids }, at) => ({
      shell: ids.shell,
      layer: (coats[(at + 1) % coats.length] as WashedCoat).ids.liner,
    })),
  });
}

async function placeNamed(db: Db, name: string): Promise<PlaceId> {
  const row = await db.selectFrom("place").select("id").where("name", "=", name).executeTakeFirstOrThrow();
  return row.id as PlaceId;
}
