import { argon2Sync } from "node:crypto";
import { describe, expect, it } from "vitest";
import { ARGON2ID, hashSecret, isOutdated, isSecret } from "./hash-secret.ts";

describe("how passphrases and PINs are kept", () => {
  it("uses an Argon2id that gives the test vector of RFC 9106, section 5.3", () => {
    const tag = argon2Sync("argon2id", {
      message: Buffer.alloc(32, 1),
      nonce: Buffer.alloc(16, 2),
      secret: Buffer.alloc(8, 3),
      associatedData: Buffer.alloc(12, 4),
      memory: 32,
      passes: 3,
      parallelism: 4,
      tagLength: 32,
    });
    expect(tag.toString("hex")).toBe("0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
  });

  it("reads a digest that the reference implementation made (phc-winner-argon2, argon2 command line)", async () => {
    // echo -n password | argon2 somesalt -id -v 13 -m 16 -t 2 -p 1: its test file, `hashtest(version, 2, 16, 1, …)`.
    const kept = {
      ...({ algorithm: "argon2id", memoryKiB: 65_536, passes: 2, lanes: 1 } as const),
      salt: Buffer.from("somesalt").toString("base64"),
      digest: Buffer.from("09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7", "hex").toString(
        "base64",
      ),
    };
    expect([await isSecret("password", kept), await isSecret("passwore", kept)]).toEqual([true, false]);
  });

  it("costs at least what the OWASP Password Storage Cheat Sheet asks of Argon2id: 19 MiB, 2 passes, 1 lane", () => {
    expect(ARGON2ID.memoryKiB).toBeGreaterThanOrEqual(19 * 1024);
    expect([ARGON2ID.passes, ARGON2ID.lanes]).toEqual([2, 1]);
  });

  it("salts each one, so that two people's equal passphrases look different", async () => {
    const [one, other] = [
      await hashSecret("a long walk to the cage"),
      await hashSecret("a long walk to the cage"),
    ];
    expect(one?.digest).not.toBe(other?.digest);
    expect(await isSecret("a long walk to the cage", one)).toBe(true);
  });

  it("notices one that was kept with less", () => {
    const kept = { algorithm: "argon2id", ...ARGON2ID, salt: "", digest: "" } as const;
    expect([isOutdated(kept), isOutdated({ ...kept, memoryKiB: 4096 })]).toEqual([false, true]);
  });
});
