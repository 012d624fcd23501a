/** Told of rows that were written since it was last told. */
export type OnWritten = (rows: number) => void;

/** One statement of so many rows takes some 200 ms: short enough to show how far a large act is, and to let others in. */
const CHUNK = 2_000;

/** Writes rows in statements of a bounded size; nothing is written for no rows. */
export async function inChunks<Row>(
  rows: readonly Row[],
  onWritten: OnWritten = () => {},
  write: (chunk: readonly Row[], start: number) => Promise<void>,
): Promise<void> {
  for (let start = 0; start < rows.length; start += CHUNK) {
    const chunk = rows.length <= CHUNK ? rows : rows.slice(start, start + CHUNK);
    await write(chunk, start);
    onWritten(chunk.length);
  }
}
