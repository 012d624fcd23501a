import { expect, test } from "vitest";
import { readMoney } from "./read-money.ts";

test.each([
  ["1234", 123400],
  ["1234.5", 123450],
  ["1234,50", 123450],
  ["$1,234.50", 123450],
  ["$1,234", 123400],
  ["1,234.50", 123450],
  ["1.234,50 €", 123450],
  ["1 234,50", 123450],
  ["1,234,567", 123456700],
  ["USD 89.99", 8999],
  ["0", 0],
])("%s is %i cents", (cell, cents) => {
  expect(readMoney(cell)).toEqual({ cents });
});

test.each([
  ["1,234", "point or comma"],
  ["1.234", "point or comma"],
  ["€1,234", "point or comma"],
  ["$1.234", "point or comma"],
  ["-5.00", "below zero"],
  ["($5.00)", "below zero"],
  ["$-5.00", "below zero"],
  ["999999999999", "too much"],
  ["1,23,456", "not an amount"],
  ["1,234.567.89", "not an amount"],
  ["1,234,50", "not an amount"],
  ["about 900", "not an amount"],
  ["1e3", "not an amount"],
])("%s is refused: %s", (cell, doubt) => {
  expect(readMoney(cell)).toEqual({ doubt });
});
