import type { OutsideId, PlaceId, ProviderId, Uuid } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { OutsideFacts, ProviderFacts } from "../domain/register/parties.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { countHeld, holderOfName } from "../store/register-facts.ts";
import type { Act } from "./run-act.ts";

export interface NameProvider extends ProviderFacts {
  readonly id: ProviderId;
}
/** Names a provider, or describes it anew; a closed one is open again. */
export const nameProviderAct: Act<NameProvider> = {
  name: "nameProvider",
  rules: "shared",
  async decide(scope, { id, ...provider }) {
    await takeSubjects(scope, "provider", [id]);
    const by = await holderOfName(scope.tx, "provider", provider.name);
    if (by && by !== id) return { refusals: [{ code: "name-taken", what: "provider", name: provider.name }] };
    return {
      entries: [{ subjectKind: "provider", subject: id, entry: { kind: "ProviderNamed", provider } }],
    };
  },
};

export interface NameOutside extends OutsideFacts {
  readonly id: OutsideId;
}
/** Names an outside party, or describes it anew; a closed one is open again. */
export const nameOutsideAct: Act<NameOutside> = {
  name: "nameOutside",
  rules: "shared",
  async decide(scope, { id, ...outside }) {
    await takeSubjects(scope, "outside", [id]);
    const by = await holderOfName(scope.tx, "outside", outside.name);
    if (by && by !== id)
      return { refusals: [{ code: "name-taken", what: "outside party", name: outside.name }] };
    return { entries: [{ subjectKind: "outside", subject: id, entry: { kind: "OutsideNamed", outside } }] };
  },
};

export interface ClosePlace {
  readonly place: PlaceId;
}
export const closePlaceAct: Act<ClosePlace> = {
  name: "closePlace",
  rules: "shared",
  async decide(scope, { place }) {
    await takeSubjects(scope, "place", [place]);
    const refusals = await refuseClosing(scope, "place", place);
    if (refusals.length > 0) return { refusals };
    return { entries: [{ subjectKind: "place", subject: place, entry: { kind: "PlaceClosed" } }] };
  },
};

export interface CloseProvider {
  readonly provider: ProviderId;
}
export const closeProviderAct: Act<CloseProvider> = {
  name: "closeProvider",
  rules: "shared",
  async decide(scope, { provider }) {
    await takeSubjects(scope, "provider", [provider]);
    const refusals = await refuseClosing(scope, "provider", provider);
    if (refusals.length > 0) return { refusals };
    return { entries: [{ subjectKind: "provider", subject: provider, entry: { kind: "ProviderClosed" } }] };
  },
};

export interface CloseOutside {
  readonly outside: OutsideId;
}
export const closeOutsideAct: Act<CloseOutside> = {
  name: "closeOutside",
  rules: "shared",
  async decide(scope, { outside }) {
    await takeSubjects(scope, "outside", [outside]);
    const refusals = await refuseClosing(scope, "outside", outside);
    if (refusals.length > 0) return { refusals };
    return { entries: [{ subjectKind: "outside", subject: outside, entry: { kind: "OutsideClosed" } }] };
  },
};

/** Who is not on record cannot be closed, nor who still has pieces: they would be with nobody who is in use. */
async function refuseClosing(
  scope: ActScope,
  what: "place" | "provider" | "outside",
  subject: Uuid,
): Promise<readonly Refusal[]> {
  if (entriesOf(scope, what, subject).length === 0) return [{ code: "unknown-subject", subject, what }];
  const pieces = await countHeld(scope.tx, subject);
  return pieces > 0 ? [{ code: "not-empty", subject, pieces }] : [];
}
