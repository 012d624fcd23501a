import { expect, test } from "vitest";
import { parseUuid } from "../domain/ids.ts";
import { uuidV7 } from "./uuid-v7.ts";

test("the example of RFC 9562 appendix A.6: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00", () => {
  const at = 0x017f22e279b0;
  expect(at).toBe(Date.parse("2022-02-22T14:22:22.000-05:00"));
  // rand_a = 0xCC3, rand_b = 0x18C4DC0C0C07398F; the two bits of the variant stand before it.
  const random = Buffer.from("0cc398c4dc0c0c07398f", "hex");
  expect(uuidV7(at, random)).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("version 7 and the variant of RFC 9562 stand in their bits whatever is drawn", () => {
  for (const byte of [0x00, 0x55, 0xaa, 0xff]) {
    const id = uuidV7(Date.parse("2026-03-02T08:00:00Z"), Buffer.alloc(10, byte));
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(parseUuid(id)).toBe(id);
  }
});

test("ids of later milliseconds sort later, and two of one millisecond differ", () => {
  const ids = [uuidV7(1), uuidV7(2), uuidV7(2 ** 32), uuidV7(2 ** 47)];
  expect([...ids].sort()).toEqual(ids);
  expect(uuidV7(5)).not.toBe(uuidV7(5));
});
