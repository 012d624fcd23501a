import { describePieceAct } from "../cases/register-acts.ts";
import type { PieceId, PlaceId } from "../domain/ids.ts";
import type { Department } from "./found-department.ts";
import { type Demo, must } from "./hands.ts";
import { SINGLE, type SingleKind } from "./harrow-county.ts";

/** Reads the labels that were still unread on what is about to be issued; the pool keeps a few for later. */
export async function readLabels(demo: Demo, department: Department, place: PlaceId): Promise<void> {
  const unread = await demo.db
    .selectFrom("piece")
    .select(["id", "kind"])
    .where("holder", "=", place)
    .where("label_reading", "=", "not yet read")
    .orderBy("id")
    .execute();
  for (const { id, kind } of unread) {
    demo.clock.pass(2);
    await must(demo, department.inez, describePieceAct, {
      piece: id as PieceId,
      label: SINGLE[kind as SingleKind],
      reading: "read",
      file: {},
    });
  }
}
