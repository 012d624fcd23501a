import { describe, expect, it } from "vitest";
import type { Instant } from "../domain/time.ts";
import { whenInZone } from "./when-in-zone.ts";

const at = (text: string) => Date.parse(text) as Instant;

describe("an instant on the department's clock", () => {
  it("is a day earlier in Chicago than in London at 02:10 UTC", () => {
    expect(whenInZone("America/Chicago")(at("2025-11-12T02:10:00Z"))).toBe("Tue 11 Nov 2025, 20:10");
    expect(whenInZone("Europe/London")(at("2025-11-12T02:10:00Z"))).toBe("Wed 12 Nov 2025, 02:10");
  });

  it("writes midnight as 00 and September in three letters", () => {
    expect(whenInZone("UTC")(at("2025-09-01T00:00:00Z"))).toBe("Mon 1 Sep 2025, 00:00");
  });
});
