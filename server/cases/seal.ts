import { type LocalDate, parseLocalDate } from "../domain/time.ts";
import type { ChainedAct } from "../ledger/check-chain.ts";
import type { Finding } from "../ledger/finding.ts";
import { departmentZone, lastActOfDay } from "../store/days.ts";
import type { Tx } from "../store/db.ts";

/** A hash that somebody kept outside the database, of a position or of the last act of a day. */
export type Seal =
  | { readonly position: number; readonly hash: string }
  | { readonly day: LocalDate; readonly hash: string };

/**
 * Parses a seal as it is printed, `412:` or `2026-03-02:` and then 64 hexadecimal digits, spaces allowed among them;
 * or JSON with `position` or `day` and `hash`, as an export holds it. Returns undefined for anything else.
 */
export function parseSeal(text: string): Seal | undefined {
  const trimmed = text.trim();
  if (trimmed.startsWith("{")) return sealFromJson(trimmed);
  const cut = trimmed.indexOf(":");
  return cut < 0 ? undefined : sealOf(trimmed.slice(0, cut), trimmed.slice(cut + 1));
}

function sealFromJson(text: string): Seal | undefined {
  try {
    const { seal, ...rest } = JSON.parse(text) as Record<string, unknown>;
    const { position, day, hash } = (seal ?? rest) as Record<string, unknown>;
    return sealOf(String(position ?? day), String(hash));
  } catch {
    return undefined;
  }
}

function sealOf(where: string, digits: string): Seal | undefined {
  const hash = digits.replaceAll(/\s/g, "").toLowerCase();
  if (!/^[0-9a-f]{64}$/.test(hash)) return undefined;
  const day = parseLocalDate(where.trim());
  if (day) return { day, hash };
  const position = Number(where);
  return Number.isSafeInteger(position) && position > 0 ? { position, hash } : undefined;
}

/** Finds the position that a seal is of. Undefined when it is of a day until whose end nothing was recorded. */
export async function sealedPosition(tx: Tx, seal: Seal): Promise<number | undefined> {
  if ("position" in seal) return seal.position;
  return (await lastActOfDay(tx, seal.day, await departmentZone(tx)))?.position;
}

/** Checks the act at the sealed position against the seal. */
export function checkSeal(seal: Seal, act: ChainedAct): Finding[] {
  if (act.hash.toString("hex") === seal.hash) return [];
  return [{ code: "seal-differs", position: act.position, ...("day" in seal ? { day: seal.day } : {}) }];
}
