import { describeMachineAct, describeProgrammeAct } from "../../server/cases/machine-acts.ts";
import { namePlaceAct } from "../../server/cases/register-acts.ts";
import type { MachineFacts, ProgrammeFacts } from "../../server/domain/cleaning/machine.ts";
import type { MachineId, PlaceId, ProgrammeId } from "../../server/domain/ids.ts";
import { type Actor, anId } from "./acting.ts";

export interface AMachine {
  readonly machine: MachineId;
  readonly place: PlaceId;
  readonly programme: ProgrammeId;
}

type Facts = Partial<Omit<MachineFacts, "place">> & { readonly programme?: Partial<ProgrammeFacts> };

/** A washer-extractor of 30 in at a place of its own, with one usual programme within the limits. */
export function aWasher(inez: Actor, { programme, ...facts }: Facts = {}): Promise<AMachine> {
  return aMachine(
    inez,
    { name: "Washer 1", what: "washer-extractor", drumDiameterMm: 762, ...facts },
    {
      ...{ name: "Turnout gear", how: "advanced cleaning", temperature: { degrees: 105, scale: "F" } },
      ...{ detergentPhTenths: 90, extractionRpm: 480 },
      ...programme,
    },
  );
}

/** A dryer at a place of its own, with one usual programme of unheated air. */
export function aDryer(inez: Actor, { programme, ...facts }: Facts = {}): Promise<AMachine> {
  const drying = { name: "No heat", temperature: { degrees: 75, scale: "F" } as const, ...programme };
  return aMachine(inez, { name: "Dryer 1", what: "dryer", ...facts }, drying);
}

async function aMachine(
  inez: Actor,
  facts: Omit<MachineFacts, "place">,
  programme: ProgrammeFacts,
): Promise<AMachine> {
  const [machine, place, id] = [anId<MachineId>(), anId<PlaceId>(), anId<ProgrammeId>()];
  const { name } = facts;
  const what = facts.what === "dryer" ? "dryer" : "washer";
  await inez.must(namePlaceAct, { id: place, name, what, carries: "closed" });
  await inez.must(describeMachineAct, { id: machine, place, ...facts });
  await inez.must(describeProgrammeAct, { machine, id, programme, usual: true });
  return { machine, place, programme: id };
}
