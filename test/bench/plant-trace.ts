import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { type Act, runAct } from "../../server/cases/run-act.ts";
import type { AccountId, ActId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { Instant } from "../../server/domain/time.ts";
import type { Carries } from "../../server/domain/tracing/trace-view.ts";
import { aDraft, anId } from "../kit/acting.ts";
import type { BenchHouse } from "./bench-house.ts";

/** What a bag held, and what lay on each rack that these went to: 32 and 32 times 31 possible contacts. */
const [IN_BAG, ON_RACK] = [32, 31];
export const PLANTED_CONTACTS = IN_BAG + IN_BAG * ON_RACK;
/** Days of April 2025: among the acts of the generated department, so that others come before and after. */
const day = (count: number) => (Date.UTC(2025, 3, 1) + count * 86_400_000) as Instant;

export interface Planted {
  readonly root: PieceId;
  readonly at: Instant;
}

/** Writes, by acts as people do, a bag from which a thousand pieces may have been reached in two steps. */
export async function plantTrace({ app, register }: BenchHouse): Promise<Planted> {
  let sequence = 0;
  const must = async <Command>(act: Act<Command>, command: Command, at: Instant) => {
    sequence += 1;
    const who = {
      by: register.account as AccountId,
      role: "program manager" as const,
      device: "bench-trace",
    };
    const when = { at, atOffsetMin: 0, sentAt: at, deviceSeq: sequence, appBuild: "bench" };
    const outcome = await runAct(app, act, command, { id: anId<ActId>(), ...who, ...when });
    if ("refusals" in outcome) throw new Error(`${act.name}: ${JSON.stringify(outcome.refusals[0])}`);
  };
  const aPlace = async (name: string, carries: Carries): Promise<PlaceId> => {
    const id = anId<PlaceId>();
    await must(namePlaceAct, { id, name: `${name} of the traced`, what: "rack", carries }, day(0));
    return id;
  };
  const register31 = async (place: PlaceId, count: number): Promise<PieceId[]> => {
    const pieces = Array.from({ length: count }, () => aDraft("hood", place));
    await must(registerPiecesAct, { pieces, evidence: "typed" }, day(1));
    return pieces.map(({ id }) => id);
  };
  const move = (pieces: readonly PieceId[], place: PlaceId, at: Instant) =>
    must(
      movePiecesAct,
      {
        pieces: pieces.map((piece) => ({ piece, evidence: "scanned" as const })),
        to: { kind: "place", id: place },
        purpose: "transfer",
      },
      at,
    );
  const [pegs, bag] = [await aPlace("Pegs", "apart"), await aPlace("Bag", "closed")];
  const [root, ...inBag] = await register31(pegs, IN_BAG + 1);
  if (!root) throw new Error("Nothing was registered.");
  await move([root, ...inBag], bag, day(2));
  for (const [index, piece] of inBag.entries()) {
    const rack = await aPlace(`Rack ${index}`, "shared");
    await register31(rack, ON_RACK);
    await move([piece], rack, day(3));
  }
  return { root, at: day(2) };
}
