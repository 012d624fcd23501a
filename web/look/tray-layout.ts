/** Where pieces lie on the tray and where their knots sit, as parts of its width. Pure. */
export type TrayPlaceSize = "coat" | "pants" | "piece";

/** Widths at 1280 px, with the room to the next piece, and the middle of the figure, where the knot sits. */
const ROOM: Record<TrayPlaceSize, { readonly width: number; readonly knot: number }> = {
  coat: { width: 344, knot: 160 },
  pants: { width: 224, knot: 103 },
  piece: { width: 166, knot: 72 },
};

/** The tray's width at 1280 px without the left margin and the room of the falling thread. */
const FULL = 1232;

export type TrayLayout = {
  /** Grid columns in fr, with a last empty one when there is room left. */
  readonly columns: string;
  /** The x of each knot as a part of the width, 0 to 1. */
  readonly knots: readonly number[];
  /** Where the row of single pieces begins: above it is free for words. */
  readonly freeFrom: number;
};

/** Lays the places out from the left; more than fit share the width in the same proportion. */
export function trayLayout(sizes: readonly TrayPlaceSize[]): TrayLayout {
  const used = sizes.reduce((sum, size) => sum + ROOM[size].width, 0);
  const total = Math.max(FULL, used);
  const knots: number[] = [];
  let x = 0;
  let free: number | undefined;
  for (const size of sizes) {
    if (size === "piece" && free === undefined) free = x;
    knots.push((x + ROOM[size].knot) / total);
    x += ROOM[size].width;
  }
  const columns = sizes.map((size) => `${ROOM[size].width}fr`);
  if (total > used) columns.push(`${total - used}fr`);
  return { columns: columns.join(" "), knots, freeFrom: (free ?? used) / total };
}

export type Counted<T> = { readonly item: T; readonly count: number };

/** Puts pieces of a kind together once there are more than six places: the first stands for all, with their number. */
export function countAlike<T>(
  items: readonly T[],
  alike: (item: T) => string,
  most = 6,
): readonly Counted<T>[] {
  if (items.length <= most) return items.map((item) => ({ item, count: 1 }));
  const groups = new Map<string, Counted<T>>();
  for (const item of items) {
    const key = alike(item);
    const known = groups.get(key);
    groups.set(key, known ? { item: known.item, count: known.count + 1 } : { item, count: 1 });
  }
  return [...groups.values()];
}
