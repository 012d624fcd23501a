import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { sha256 } from "./canonical.ts";
import { type ActHeader, actDigest, FIRST_PREV, linkHash } from "./chain.ts";

const ACT: ActHeader = {
  id: "01950000-0000-7000-8000-000000000001",
  command: "movePieces",
  commandHash: sha256("a command"),
  by: "01950000-0000-7000-8000-000000000002",
  device: "bench 1",
  deviceSeq: 7,
  appBuild: "0.1.0",
  at: 1_772_438_400_000,
  atOffsetMin: -300,
  sentAt: 1_772_438_400_123,
};
const HASHES = [sha256("first"), sha256("second")];

test("a link is SHA-256 over previous hash, position, digest and recorded time, numbers as 8 bytes big-endian", () => {
  const digest = actDigest(ACT, HASHES);
  const plain = createHash("sha256")
    .update(FIRST_PREV)
    .update(Buffer.from("0000000000000102", "hex"))
    .update(digest)
    .update(Buffer.from("0000019cad911400", "hex"))
    .digest();
  expect(0x019cad911400).toBe(1_772_438_492_160);
  expect(linkHash(FIRST_PREV, 0x102, digest, 1_772_438_492_160)).toEqual(plain);
});

test("whatever is changed about an act, its digest changes", () => {
  const changed: ActHeader[] = [
    { ...ACT, id: ACT.id.replace("1", "2") },
    { ...ACT, command: "installLayer" },
    { ...ACT, commandHash: sha256("another command") },
    { ...ACT, by: ACT.id },
    { ...ACT, device: "bench 2" },
    { ...ACT, deviceSeq: 8 },
    { ...ACT, appBuild: "0.1.1" },
    { ...ACT, at: ACT.at + 1 },
    { ...ACT, atOffsetMin: 0 },
    { ...ACT, sentAt: ACT.sentAt + 1 },
  ];
  expect(changed).toHaveLength(Object.keys(ACT).length);
  const digests = [ACT, ...changed].map((act) => actDigest(act, HASHES).toString("hex"));
  digests.push(actDigest(ACT, [...HASHES].reverse()).toString("hex"));
  digests.push(actDigest(ACT, HASHES.slice(1)).toString("hex"));
  expect(new Set(digests).size).toBe(digests.length);
});

test("members that an act carries beside its header do not enter its digest", () => {
  const withMore = { ...ACT, more: "something that another layer added" } as ActHeader;
  expect(actDigest(withMore, HASHES)).toEqual(actDigest(ACT, HASHES));
});
