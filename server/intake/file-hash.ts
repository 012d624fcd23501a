import { createHash } from "node:crypto";

/** The SHA-256 of a file's bytes in lower-case hex: the key by which the same file twice changes nothing. */
export function hashFile(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}
