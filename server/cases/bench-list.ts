import type { PieceId } from "../domain/ids.ts";
import type { LastSeen } from "../domain/piece-view.ts";
import type { AbsentPiece, BenchList } from "../domain/reassemble/bench-list.ts";
import { lastScans, latestFittings, loadMates, piecesOfLastLoad } from "../store/bench-fittings.ts";
import type { Db } from "../store/db.ts";
import { type LoadedGarments, loadGarments } from "../store/load-garments.ts";
import { garmentOf } from "./garments.ts";

export { piecesOfLastLoad };

/**
 * Reads what the record says of pieces that lie on a bench: their labels, what each shell needs, the latest fittings,
 * and the partners that do not lie there with where they may be. Pieces that are not on record are left out.
 */
export async function readBenchList(db: Db, pieces: readonly PieceId[]): Promise<BenchList> {
  const asked = new Set(pieces);
  const near = await latestFittings(db, [...asked]);
  const partners = absentOf(near, asked);
  // A partner that was in another shell since is no longer this one's: its own fittings tell.
  const further = await latestFittings(db, partners);
  const fittings = [...near, ...further.filter((one) => !near.some((other) => isSame(one, other)))];
  const absent = absentOf(fittings, asked);
  const found = await loadGarments(db, [...asked, ...absent]);
  const here = [...asked].flatMap((id) => found.briefs.get(id) ?? []);
  return {
    pieces: here,
    facts: found.facts,
    needs: Object.fromEntries(
      here.filter(({ kind }) => kind.layer === "shell").map(({ id }) => [id, garmentOf(found, id).needs]),
    ),
    fittings,
    absent: await whereTheyMayBe(db, found, absent),
    names: found.names,
  };
}

function absentOf(fittings: BenchList["fittings"], asked: ReadonlySet<PieceId>): PieceId[] {
  const named = fittings.flatMap(({ shell, layer }) => [shell, layer]);
  return [...new Set(named)].filter((id) => !asked.has(id));
}

function isSame(one: BenchList["fittings"][number], other: BenchList["fittings"][number]): boolean {
  return one.layer === other.layer && one.shell === other.shell && one.from === other.from;
}

async function whereTheyMayBe(
  db: Db,
  found: LoadedGarments,
  absent: readonly PieceId[],
): Promise<AbsentPiece[]> {
  const [scans, mates] = await Promise.all([lastScans(db, absent), loadMates(db, absent)]);
  return absent.flatMap((id) => {
    const piece = found.briefs.get(id);
    if (!piece) return [];
    const root = found.roots.get(id);
    const fittedIn = root && root !== id ? found.names[root] : undefined;
    const scan = scans.get(id);
    const loadMatesAt = mates.get(id) ?? [];
    const lastSeen: LastSeen | undefined = scan && { how: "scan", ...scan };
    return [{ piece, ...(fittedIn ? { fittedIn } : {}), ...(lastSeen ? { lastSeen } : {}), loadMatesAt }];
  });
}
