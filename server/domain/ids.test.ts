import { expectTypeOf, test } from "vitest";
import type { PieceId, PlaceId, Uuid } from "./ids.ts";
import type { Instant, LocalDate, YearMonth } from "./time.ts";

test("types: ids of two subjects, and days and months, cannot be exchanged; every id is a UUID", () => {
  expectTypeOf<PieceId>().not.toBeNever();
  expectTypeOf<PieceId>().not.toExtend<PlaceId>();
  expectTypeOf<PieceId>().toExtend<Uuid>();
  expectTypeOf<Uuid>().not.toExtend<PieceId>();
  expectTypeOf<YearMonth>().not.toExtend<LocalDate>();
  expectTypeOf<number>().not.toExtend<Instant>();
});
