/** Makes a UUID of version 7 (RFC 9562 section 5.7): 48 bits of milliseconds, then random bits. */
export function uuidV7(
  nowMs: number,
  random: Uint8Array = crypto.getRandomValues(new Uint8Array(10)),
): string {
  const bytes = new Uint8Array(16);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, Math.floor(nowMs / 2 ** 32));
  view.setUint32(2, nowMs % 2 ** 32);
  bytes.set(random.subarray(0, 10), 6);
  view.setUint8(6, (view.getUint8(6) & 0x0f) | 0x70);
  view.setUint8(8, (view.getUint8(8) & 0x3f) | 0x80);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/** Draws the id of a new subject, such as a piece that is about to be registered. */
export function newId<Id extends string>(): Id {
  return uuidV7(Date.now()) as Id;
}
