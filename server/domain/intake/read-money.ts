import type { MoneyDoubt } from "./problem.ts";

export type MoneyReading = { readonly cents: number } | { readonly doubt: MoneyDoubt };

const SIGN = /^(?:US\$|C\$|A\$|USD|CAD|AUD|GBP|EUR|[$£€])\s*|\s*(?:USD|CAD|AUD|GBP|EUR|[$£€])$/gi;
/** A hundred million: no piece of gear costs more, and cents stay far below what a number holds exactly. */
const MOST_CENTS = 10_000_000_000;

/**
 * Reads an amount as whole cents, only where one reading is possible: 1234, 1234.5, 1234.50, 1,234.50, 1.234,50,
 * 1234,50, with a sign of dollars, pounds or euros or without. "1,234" is a thousand with a dollar or pound sign
 * and refused without, since elsewhere the comma parts the cents; "1.234" is refused.
 */
export function readMoney(cell: string): MoneyReading {
  const written = cell.trim();
  if (/^\(.*\)$|^-|-$/.test(written.replace(SIGN, "").trim())) return { doubt: "below zero" };
  const bare = written.replace(SIGN, "").trim();
  const plain = /^(\d+)(?:[.,](\d{1,2}))?$/.exec(bare);
  if (plain) return cents(plain[1], plain[2]);
  const grouped = /^(\d{1,3}(?:([,.' ])\d{3})+)(?:([.,])(\d{1,2}))?$/.exec(bare);
  if (!grouped || !isOneGrouping(grouped[1] ?? "", grouped[2]) || grouped[2] === grouped[3]) {
    return { doubt: "not an amount" };
  }
  const isOneGroup = (grouped[1] ?? "").split(grouped[2] ?? "").length === 2;
  const isDollars = /[$£]|USD|CAD|AUD|GBP/i.test(written) && grouped[2] === ",";
  if (grouped[4] === undefined && isOneGroup && /[.,]/.test(grouped[2] ?? "") && !isDollars) {
    return { doubt: "point or comma" };
  }
  return cents((grouped[1] ?? "").replace(/\D/g, ""), grouped[4]);
}

function isOneGrouping(whole: string, sign: string | undefined): boolean {
  return new Set(whole.replace(/\d/g, "")).size === 1 && sign !== undefined;
}

function cents(whole = "", part = ""): MoneyReading {
  const amount = Number(whole) * 100 + Number(part.padEnd(2, "0"));
  return amount > MOST_CENTS ? { doubt: "too much" } : { cents: amount };
}
