import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { Instant } from "../../server/domain/time.ts";
import type { TraceAsked, TraceFrom } from "../../server/domain/tracing/kept-trace.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import type { Db } from "../../server/store/db.ts";
import { actor, aDraft, anId } from "./acting.ts";
import { scanned } from "./small-department.ts";

export const on = (day: number, time: string) => `2026-04-${String(day).padStart(2, "0")}T${time}:00Z`;
export const ms = (day: number, time: string) => Date.parse(on(day, time)) as Instant;
export const iso = (text: string) => new Date(text).toISOString();
/** When the tests look at what happened in April. */
export const NOW = Date.parse("2026-06-01T00:00:00Z");
export const asking = (start: TraceFrom, more: Partial<TraceAsked> = {}): TraceAsked => ({
  ...{ start, direction: "forward", hops: 2, carriers: ["closed", "shared"] },
  ...more,
});
/** Contacts as piece, steps and first moment. */
export const told = ({ contacts }: TraceView) =>
  contacts.map(({ piece, hops, firstMoment }) => [piece, hops, firstMoment]);

/** People and places with gear to trace, on a department's database. */
export function tracedGear(db: () => Db) {
  const tobin = actor(db, "technician", "2026-03-02T09:00:00Z");
  const odile = actor(db, "program manager", "2026-03-02T09:00:00Z");
  let places = 0;
  async function aPlace(carries: "closed" | "shared" | "apart"): Promise<PlaceId> {
    const id = anId<PlaceId>();
    places += 1;
    await odile.must(namePlaceAct, { id, name: `${carries} ${places}`, what: "rack", carries });
    return id;
  }
  async function register(kind: string, place: PlaceId, at = on(1, "06:00")): Promise<PieceId> {
    const draft = aDraft(kind, place, { linerCode: "LK-2" });
    await odile.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, at);
    return draft.id;
  }
  const move = (piece: PieceId, to: PlaceId, at: string) =>
    tobin.must(
      movePiecesAct,
      { pieces: scanned(piece), to: { kind: "place", id: to }, purpose: "transfer" },
      at,
    );
  /** A bag with a root and another piece in it, which then lies on a rack with a third, which lies with a fourth. */
  async function chain() {
    const [bag, rack, bench, peg] = [
      await aPlace("closed"),
      await aPlace("shared"),
      await aPlace("shared"),
      await aPlace("apart"),
    ];
    const [root, liner, hood, helmet, boots] = [
      await register("coat-shell", peg),
      await register("coat-liner", peg),
      await register("hood", rack),
      await register("helmet", bench),
      await register("boot-pair", peg),
    ];
    await move(root, bag, on(2, "08:00"));
    await move(liner, bag, on(2, "09:00"));
    await move(liner, rack, on(3, "09:00"));
    await move(hood, bench, on(4, "09:00"));
    return { bag, rack, bench, peg, root, liner, hood, helmet, boots };
  }
  return { tobin, odile, aPlace, register, move, chain };
}
