import fc from "fast-check";
import { expect, test } from "vitest";
import type { Uuid } from "../domain/ids.ts";
import { sha256 } from "./canonical.ts";
import { entryBytes, readBindings, readEntryBytes, saltTexts, textHash } from "./entry-bytes.ts";

const PLACE = { kind: "piece", id: "01950000-0000-7000-8000-000000000001" as Uuid, version: 3 } as const;

test("an entry read back is the entry that was written, whatever its members", () => {
  const value = fc.oneof(fc.string({ unit: "grapheme" }), fc.integer(), fc.boolean(), fc.constant(null));
  const members = fc.dictionary(
    fc
      .string({ unit: "grapheme", minLength: 1 })
      .filter((name) => !["__proto__", "schema", "about", "texts"].includes(name)),
    value,
    { noNullPrototype: true },
  );
  fc.assert(
    fc.property(members, (body) => {
      expect(readEntryBytes(entryBytes(body, PLACE, []))).toEqual(body);
    }),
  );
});

test("a free text is not in the bytes, only the hash of its salt and it", () => {
  const [note] = saltTexts({ note: "torn at the left knee" });
  if (!note) throw new Error("no text was salted");
  const bytes = entryBytes({ kind: "PieceFound" }, PLACE, [note]);
  expect(bytes.toString("utf8")).not.toContain("torn");
  expect(JSON.parse(bytes.toString("utf8"))).toMatchObject({
    texts: { note: textHash(note).toString("hex") },
  });
  expect(textHash(note)).toEqual(sha256(note.salt, Buffer.from("torn at the left knee", "utf8")));
});

test("the same text twice has two salts, so that equal texts cannot be told from their hashes", () => {
  const [first, second] = [saltTexts({ note: "none" })[0], saltTexts({ note: "none" })[0]];
  expect(first?.salt).toHaveLength(16);
  expect(first?.salt).not.toEqual(second?.salt);
});

test("an entry of a newer schema is refused in words, not misread", () => {
  expect(() => readEntryBytes(Buffer.from('{"kind":"PieceFound","schema":2}'))).toThrow(
    /Start the newer build/,
  );
  expect(() => readEntryBytes(Buffer.from('{"kind":"PieceFound"}'))).toThrow(/schema/);
});

test("the bytes bind which entry of which subject they are, and say so apart from the entry", () => {
  const bytes = entryBytes({ kind: "PieceFound" }, PLACE, []);
  expect(readBindings(bytes)).toEqual({ kind: "PieceFound", about: PLACE, texts: {} });
  expect(readEntryBytes(bytes)).toEqual({ kind: "PieceFound" });
  const others = [{ ...PLACE, version: 4 }, { ...PLACE, kind: "tag" } as const];
  for (const other of others) expect(entryBytes({ kind: "PieceFound" }, other, [])).not.toEqual(bytes);
});
