import {
  listKinds,
  listOutside,
  listProviders,
  readAcceptances,
  readModels,
  readSettings,
  writeModelTable,
} from "../../cases/read-register.ts";
import type { KindState } from "../../domain/register/kind.ts";
import type { OutsideState, ProviderState } from "../../domain/register/parties.ts";
import type { AcceptancesShown, ModelShown, SettingsShown } from "../../domain/register/register-views.ts";
import { answerCsv } from "../answer-file.ts";
import { defineRoute } from "../define-route.ts";
import { shown } from "../shown.ts";

const kinds = shown<{ readonly kinds: readonly KindState[] }>("Kinds", "What a piece can be.");
const models = shown<{ readonly models: readonly ModelShown[] }>(
  "Models",
  "The model table: what each model takes, and who says so.",
);
const acceptances = shown<AcceptancesShown>(
  "Acceptances",
  "Recorded words of makers and verified providers, withdrawn ones last.",
);
const providers = shown<{ readonly providers: readonly ProviderState[] }>(
  "Providers",
  "Who cleans, inspects or repairs.",
);
const outside = shown<{ readonly outside: readonly OutsideState[] }>(
  "OutsideParties",
  "Who can have custody outside the department.",
);
const settings = shown<SettingsShown>("Settings", "The department's settings as they stand.");

/** Short lists that forms choose from, whole: a department has tens of them. */
export const listRoutes = [
  defineRoute(
    { method: "get", path: "/api/kinds", roles: "signed in", summary: "What a piece can be", answer: kinds },
    async ({ services: { db } }) => ({ kinds: await listKinds(db) }),
  ),
  defineRoute(
    { method: "get", path: "/api/models", roles: "signed in", summary: "The model table", answer: models },
    async ({ services: { db } }) => ({ models: await readModels(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/model-table.csv",
      roles: ["technician", "inspector", "program manager", "reader"],
      summary: "The model table as a CSV file that comes in the same",
      answerType: "text/csv",
    },
    async ({ services: { db } }) => answerCsv("model table.csv", await writeModelTable(db)),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/acceptances",
      roles: "signed in",
      summary: "Recorded words that a combination may be worn",
      answer: acceptances,
    },
    async ({ services: { db } }) => readAcceptances(db),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/providers",
      roles: "signed in",
      summary: "Providers that clean, inspect or repair",
      answer: providers,
    },
    async ({ services: { db } }) => ({ providers: await listProviders(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/outside",
      roles: "signed in",
      summary: "Parties outside the department",
      answer: outside,
    },
    async ({ services: { db } }) => ({ outside: await listOutside(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/settings",
      roles: "signed in",
      summary: "The department's settings",
      answer: settings,
    },
    async ({ services: { db } }) => readSettings(db),
  ),
] as const;
