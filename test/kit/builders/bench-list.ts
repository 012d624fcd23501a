import type { PieceId, Uuid } from "../../../server/domain/ids.ts";
import type { Named, PieceBrief } from "../../../server/domain/piece-view.ts";
import type { MakersLabel } from "../../../server/domain/pieces/label.ts";
import type { BenchList, FittingOnRecord } from "../../../server/domain/reassemble/bench-list.ts";
import { STANDARD_KINDS } from "../../../server/domain/register/standard-kinds.ts";
import type { TagNumber } from "../../../server/domain/tags/tag-number.ts";
import type { LocalDate } from "../../../server/domain/time.ts";

const RACK: Named = { kind: "place", id: "rack" as Uuid, name: "Rack B2" };
const LABEL: MakersLabel = {
  maker: "Tarnholt",
  modelName: "K7",
  size: "46 32 R",
  pattern: "M",
  linerCode: "LK-2",
  madeOn: "2022-03" as LocalDate,
};

/** A piece on the bench: its tag number is its name here, and all labels match unless something is said. */
export function aPieceOnBench(
  name: string,
  kind: string,
  label: MakersLabel = {},
  more: Partial<PieceBrief> = {},
): PieceBrief {
  const known = STANDARD_KINDS.find(({ code }) => code === kind);
  if (!known) throw new Error(`There is no kind ${kind}.`);
  const { code, family, garment, layer, name: kindName } = known;
  return {
    id: name as PieceId,
    number: name as TagNumber,
    version: 1,
    kind: { code, family, name: kindName, ...(garment ? { garment } : {}), ...(layer ? { layer } : {}) },
    label: { ...LABEL, ...label },
    labelReading: "read",
    holder: RACK,
    heldSince: "2026-03-02T09:00:00.000Z",
    soiled: false,
    washes: 4,
    holds: [],
    ...more,
  };
}

export const aCoat = (name: string, label: MakersLabel = {}, more: Partial<PieceBrief> = {}) =>
  aPieceOnBench(name, "coat-shell", label, more);
export const aLiner = (name: string, label: MakersLabel = {}, more: Partial<PieceBrief> = {}) =>
  aPieceOnBench(name, "coat-liner", label, more);

/** A fitting that lasted some days of January; without an end it lasts. */
export function wasIn(
  layer: string,
  shell: string,
  days: readonly [from: number, to?: number],
  isFound = false,
): FittingOnRecord {
  const day = (at: number) => `2026-01-${String(at).padStart(2, "0")}T08:00:00.000Z`;
  const [from, to] = days;
  return {
    layer: layer as PieceId,
    shell: shell as PieceId,
    layerKind: "coat-liner",
    from: day(from),
    ...(to === undefined ? {} : { to: day(to) }),
    isFound,
  };
}

/** What lies on a bench; every coat needs a liner and no more, unless something else is said. */
export function aBenchList(
  pieces: readonly PieceBrief[],
  fittings: readonly FittingOnRecord[] = [],
  more: Partial<BenchList> = {},
): BenchList {
  const shells = pieces.filter(({ kind }) => kind.layer === "shell");
  return {
    pieces,
    fittings,
    facts: { takes: [], acceptedCombinations: [], comparedByEye: [] },
    needs: Object.fromEntries(shells.map(({ id }) => [id, [{ layerKind: "coat-liner" }]])),
    absent: [],
    names: {},
    ...more,
  };
}
