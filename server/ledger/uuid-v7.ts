import { randomBytes } from "node:crypto";
import type { Uuid } from "../domain/ids.ts";

/** Makes a UUID of version 7 (RFC 9562 section 5.7): 48 bits of milliseconds, then random bits. */
export function uuidV7(nowMs: number, random: Buffer = randomBytes(10)): Uuid {
  const bytes = Buffer.alloc(16);
  bytes.writeUIntBE(nowMs, 0, 6);
  random.copy(bytes, 6, 0, 10);
  bytes.writeUInt8((bytes.readUInt8(6) & 0x0f) | 0x70, 6);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  const hex = bytes.toString("hex");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join(
    "-",
  ) as Uuid;
}
