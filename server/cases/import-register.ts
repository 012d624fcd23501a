import type { PieceId, Uuid } from "../domain/ids.ts";
import type { MakersLabel } from "../domain/pieces/label.ts";
import type { LocalDate } from "../domain/time.ts";
import { uuidV7 } from "../ledger/uuid-v7.ts";
import { departmentZone } from "../store/days.ts";
import type { Db } from "../store/db.ts";
import { type KnownToImport, knownCodes, readKnownToImport } from "../store/import-names.ts";
import { dayIn } from "../store/load-rulebook.ts";
import { knownSerials } from "../store/register-facts.ts";

/** What a file is read against: the names of the register, and the department's calendar day. */
export interface ImportRegister {
  readonly known: KnownToImport;
  readonly today: LocalDate;
}

/** Reads what a file is read against, as it stands now. */
export async function readImportRegister(db: Db, nowMs: number): Promise<ImportRegister> {
  return db.transaction().execute(async (tx) => {
    const zone = await departmentZone(tx);
    return { known: await readKnownToImport(tx), today: dayIn(zone, nowMs) };
  });
}

/** Finds which pieces the register has already, by maker, kind and serial and by foreign code in lower case. */
export async function findRegistered(
  db: Db,
  pieces: readonly { readonly kind: string; readonly label: MakersLabel; readonly foreignCode?: string }[],
): Promise<{
  readonly bySerial: ReadonlyMap<string, PieceId>;
  readonly byCode: ReadonlyMap<string, PieceId>;
}> {
  return db.transaction().execute(async (tx) => ({
    bySerial: await knownSerials(tx, pieces),
    byCode: await knownCodes(
      tx,
      pieces.flatMap(({ foreignCode }) => foreignCode ?? []),
    ),
  }));
}

/** Draws ids for what a file brings in. */
export function drawId<Id extends Uuid>(nowMs: number): Id {
  return uuidV7(nowMs) as Id;
}
