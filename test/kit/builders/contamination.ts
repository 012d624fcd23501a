import type { Rulebook } from "../../../server/domain/bench/rulebook.ts";
import type { ContaminantRule } from "../../../server/domain/contamination/contaminant-rule.ts";
import { unruled } from "../../../server/domain/contamination/contaminant-rule.ts";
import type { EventBrief } from "../../../server/domain/contamination/standing-contamination.ts";
import type { EventId } from "../../../server/domain/ids.ts";
import type { HowCleaned, PieceEntry } from "../../../server/domain/pieces/piece-entries.ts";
import { foldPiece, isFault, type PieceState } from "../../../server/domain/pieces/piece-state.ts";
import { STARTING_SETTINGS } from "../../../server/domain/register/policy.ts";
import type { LocalDate } from "../../../server/domain/time.ts";
import { ANY_ACCOUNT, aPiece, aPieceId, minute, recorded } from "./piece-entries.ts";

export const KETTLE_YARD = "01950000-0000-7000-8000-00e000000001" as EventId;
export const MILL_STREET = "01950000-0000-7000-8000-00e000000002" as EventId;

/** A rule that the department has set: what it says of a shared load, and which cleanings end it. */
export function aRule(code: string, shares: "yes" | "no", ends: readonly HowCleaned[]): ContaminantRule {
  const set = { source: "Harrow County procedure 12", confirmed: true } as const;
  const { asks, ...rest } = unruled(code);
  return {
    ...rest,
    asks: { ...asks, "share a load": { ...set, says: shares }, specialist: { ...set, says: "no" } },
    endedBy: { ...set, says: ends },
  };
}

export function aBook(events: readonly EventBrief[], contaminants: readonly ContaminantRule[]): Rulebook {
  return {
    kinds: new Map(),
    modelTable: [],
    layersOfModel: new Map(),
    washOfModel: new Map(),
    words: [],
    settings: STARTING_SETTINGS,
    contaminants,
    events: new Map(events.map((event) => [event.id, event])),
    dayOf: () => "2026-03-02" as LocalDate,
  };
}

export function aPieceAfter(count: number, ...entries: PieceEntry[]): PieceState {
  const state = foldPiece(aPieceId(count), recorded(aPiece(), ...entries));
  if (isFault(state)) throw new Error(`${state.code} at version ${state.version}`);
  return state;
}

/** A piece that was at an event from minute 10 to minute 40, and is on hold for it since minute 60. */
export function metAt(event: EventId): PieceEntry[] {
  return [
    { kind: "PieceMet", at: minute(10), evidence: "scanned", event, from: minute(10), to: minute(40) },
    {
      kind: "HoldPlaced",
      at: minute(60),
      evidence: "described",
      hold: "contamination",
      by: ANY_ACCOUNT,
      event,
    },
  ];
}
