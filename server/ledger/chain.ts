import { canonicalBytes, type LedgerValue, sha256 } from "./canonical.ts";

export const FIRST_PREV = Buffer.alloc(32);

/** An act as it is bound: who did what, when, from which device. Times are milliseconds since 1970 UTC. */
export interface ActHeader {
  readonly id: string;
  readonly command: string;
  readonly commandHash: Buffer;
  readonly by: string;
  readonly device: string;
  readonly deviceSeq: number;
  readonly appBuild: string;
  readonly at: number;
  readonly atOffsetMin: number;
  readonly sentAt: number;
}

/** Hashes an act with the hashes of its entries, in their order: what the chain binds beside position and time. */
export function actDigest(act: ActHeader, entryHashes: readonly Buffer[]): Buffer {
  const { id, command, commandHash, by, device, deviceSeq, appBuild, at, atOffsetMin, sentAt } = act;
  // Named one by one: what else an envelope carries is not kept in the act's row, and could not be checked later.
  const header: LedgerValue = {
    ...{ id, command, commandHash: commandHash.toString("hex"), by, device, deviceSeq },
    ...{ appBuild, at, atOffsetMin, sentAt },
  };
  return sha256(canonicalBytes(header), ...entryHashes);
}

/** Hashes one link: SHA-256(prev ‖ position ‖ digest ‖ recorded at), numbers as 8 bytes, big-endian. */
export function linkHash(prev: Buffer, position: number, digest: Buffer, recordedAtMs: number): Buffer {
  const numbers = Buffer.alloc(16);
  numbers.writeBigInt64BE(BigInt(position), 0);
  numbers.writeBigInt64BE(BigInt(recordedAtMs), 8);
  return sha256(prev, numbers.subarray(0, 8), digest, numbers.subarray(8));
}
