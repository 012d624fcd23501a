import { answerScan, type Scan } from "../../server/cases/look-up.ts";
import { attachTagAct, printTagsAct, reserveTagsAct } from "../../server/cases/tag-acts.ts";
import type { Viewer } from "../../server/cases/viewer.ts";
import type { AccountId, PieceId, Uuid } from "../../server/domain/ids.ts";
import type { ScanAnswer } from "../../server/domain/scan-answer.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { Db } from "../../server/store/db.ts";
import { type Actor, anId } from "./acting.ts";

/** Somebody of a role who only looks. */
export function aViewer(facts: Partial<Viewer> = {}): Viewer {
  return { account: anId<AccountId>(), role: "technician", ...facts };
}

/** Scans a text at a bench and waits until the scan is kept. */
export async function scan(
  db: Db,
  text: string,
  viewer = aViewer(),
  how: Partial<Scan> = {},
): Promise<ScanAnswer> {
  const { answer, kept } = await answerScan(
    db,
    { text, via: "wedge", mode: "look up", device: "bench-1", ...how },
    viewer,
    Date.parse("2026-11-24T10:15:00Z"),
  );
  await kept;
  return answer;
}

/** Scans a text and gives the answer of the kind that it must have. */
export async function scanFor<Kind extends ScanAnswer["kind"]>(
  db: Db,
  kind: Kind,
  text: string,
  viewer?: Viewer,
  how?: Partial<Scan>,
): Promise<Extract<ScanAnswer, { kind: Kind }>> {
  const answer = await scan(db, text, viewer, how);
  if (answer.kind !== kind) throw new Error(`${text} was answered ${answer.kind}, not ${kind}.`);
  return answer as Extract<ScanAnswer, { kind: Kind }>;
}

/** Prints a tag for a piece, or a spare one, and gives its number. */
export async function aPrintedTag(db: Db, actor: Actor, piece?: PieceId): Promise<TagNumber> {
  const run = anId<Uuid>();
  await actor.must(reserveTagsAct, { run, ...(piece ? { pieces: [piece] } : { spare: 1 }) });
  await actor.must(printTagsAct, { run });
  const tag = await db.selectFrom("tag").select("number").where("run", "=", run).executeTakeFirstOrThrow();
  return tag.number as TagNumber;
}

/** Prints a tag and brings it to life on a piece. */
export async function aLiveTag(db: Db, actor: Actor, piece: PieceId, position = "main"): Promise<TagNumber> {
  const number = await aPrintedTag(db, actor, piece);
  await actor.must(attachTagAct, { piece, number, position, proof: "scanned" });
  return number;
}
