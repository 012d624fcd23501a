import type { ModelId, Uuid } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { AcceptanceFacts } from "../domain/register/acceptance.ts";
import type { ModelFacts } from "../domain/register/model.ts";
import { POLICY_ID, type Settings } from "../domain/register/policy.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { takeSubjects } from "../store/act-scope.ts";
import { modelsByName } from "../store/register-facts.ts";
import type { Act } from "./run-act.ts";

/** Fills rows of the model table. A row is found again by maker, name and kind: the same three replace it. */
export interface DescribeModels {
  readonly models: readonly (Omit<ModelFacts, "source"> & {
    readonly id: ModelId;
    readonly source: Omit<ModelFacts["source"], "by">;
  })[];
}
export const describeModelsAct: Act<DescribeModels> = {
  name: "describeModels",
  rules: "exclusive",
  async decide(scope, { models }, { by }) {
    await takeSubjects(
      scope,
      "model",
      models.map(({ id }) => id),
    );
    const asLabels = models.map(({ kind, maker, name }) => ({ kind, label: { maker, modelName: name } }));
    const known = await modelsByName(scope.tx, asLabels);
    const entries: NewEntry[] = [];
    const refusals: Refusal[] = [];
    for (const { id, source, ...facts } of models) {
      const other = known(facts.kind, { maker: facts.maker, modelName: facts.name });
      if (other && other !== id) refusals.push({ code: "name-taken", what: "model", name: facts.name });
      const model: ModelFacts = { ...facts, source: { ...source, by } };
      entries.push({ subjectKind: "model", subject: id, entry: { kind: "ModelDescribed", model } });
    }
    return refusals.length > 0 ? { refusals } : { entries };
  },
};

/** Records a maker's or verified provider's word that a combination may be worn. Only it turns differs into accepted. */
export interface RecordAcceptance extends AcceptanceFacts {
  readonly id: Uuid;
}
export const recordAcceptanceAct: Act<RecordAcceptance> = {
  name: "recordAcceptance",
  rules: "exclusive",
  async decide(scope, { id, ...acceptance }) {
    await takeSubjects(scope, "acceptance", [id]);
    const entry = { kind: "CombinationAccepted" as const, acceptance };
    return { entries: [{ subjectKind: "acceptance", subject: id, entry }] };
  },
};

export interface WithdrawAcceptance {
  readonly acceptance: Uuid;
}
export const withdrawAcceptanceAct: Act<WithdrawAcceptance> = {
  name: "withdrawAcceptance",
  rules: "exclusive",
  async decide(scope, { acceptance }) {
    await takeSubjects(scope, "acceptance", [acceptance]);
    if (!scope.read.get(acceptance)?.entries.length) {
      return { refusals: [{ code: "unknown-subject", subject: acceptance, what: "recorded word" }] };
    }
    const entry = { kind: "AcceptanceWithdrawn" as const };
    return { entries: [{ subjectKind: "acceptance", subject: acceptance, entry }] };
  },
};

export interface SetSettings {
  readonly settings: Partial<Settings>;
}
export const setSettingsAct: Act<SetSettings> = {
  name: "setSettings",
  rules: "exclusive",
  async decide(scope, { settings }) {
    await takeSubjects(scope, "policy", [POLICY_ID]);
    const entries = Object.entries(settings).map(
      ([name, value]): NewEntry => ({
        subjectKind: "policy",
        subject: POLICY_ID,
        entry: { kind: "SettingSet", name: name as keyof Settings, value },
      }),
    );
    return { entries };
  },
};
