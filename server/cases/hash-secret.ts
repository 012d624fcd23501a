import { argon2, randomBytes, timingSafeEqual } from "node:crypto";
import { promisify } from "node:util";
import type { KeptSecret } from "../store/credentials.ts";

const derive = promisify(argon2);

/**
 * 19 MiB, two passes, one lane: the least that the OWASP Password Storage Cheat Sheet recommends for Argon2id.
 * Measured on two loaded cores: 0.11 s of processor time. Kept with each digest, so that they can be raised later.
 */
export const ARGON2ID = { memoryKiB: 19_456, passes: 2, lanes: 1 } as const;
const SALT_BYTES = 16;
const DIGEST_BYTES = 32;

/** Hashes a passphrase or PIN with a salt of its own. */
export async function hashSecret(secret: string): Promise<KeptSecret> {
  const salt = randomBytes(SALT_BYTES);
  const digest = await argon2id(secret, salt, ARGON2ID, DIGEST_BYTES);
  return {
    algorithm: "argon2id",
    ...ARGON2ID,
    salt: salt.toString("base64"),
    digest: digest.toString("base64"),
  };
}

/** Tells whether a secret is the one that was kept, in the same time for every wrong one. */
export async function isSecret(secret: string, kept: KeptSecret): Promise<boolean> {
  const wanted = Buffer.from(kept.digest, "base64");
  const salt = Buffer.from(kept.salt, "base64");
  return timingSafeEqual(await argon2id(secret, salt, kept, wanted.length), wanted);
}

/** Tells whether a secret was kept with weaker parameters than today's. */
export function isOutdated({ memoryKiB, passes, lanes }: KeptSecret): boolean {
  return memoryKiB < ARGON2ID.memoryKiB || passes < ARGON2ID.passes || lanes < ARGON2ID.lanes;
}

/** Spends the time that a real try takes, so that an unknown name answers no sooner than a wrong passphrase. */
export async function pretendToTry(secret: string): Promise<void> {
  await argon2id(secret, randomBytes(SALT_BYTES), ARGON2ID, DIGEST_BYTES);
}

/** How many are computed at once: two of Node's four threads stay free for files, and memory stays at 38 MiB. */
const AT_ONCE = 2;
let running = 0;
const queue: (() => void)[] = [];

async function argon2id(
  secret: string,
  salt: Buffer,
  cost: { readonly memoryKiB: number; readonly passes: number; readonly lanes: number },
  digestBytes: number,
): Promise<Buffer> {
  if (running >= AT_ONCE) await new Promise<void>((go) => queue.push(go));
  else running += 1;
  try {
    return await derive("argon2id", {
      message: Buffer.from(secret, "utf8"),
      nonce: salt,
      memory: cost.memoryKiB,
      passes: cost.passes,
      parallelism: cost.lanes,
      tagLength: digestBytes,
    });
  } finally {
    const next = queue.shift();
    if (next) next();
    else running -= 1;
  }
}
