import type { KindState } from "../../../server/domain/register/kind.ts";
import type { ProviderState } from "../../../server/domain/register/parties.ts";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import type { Trouble } from "../../api/answer.ts";
import type { Client } from "../../api/client.ts";
import { loadWhole } from "../ask.ts";
import type { Asked } from "../sign-in-screen.tsx";

export interface Lists {
  readonly kinds: readonly KindState[];
  readonly models: readonly ModelShown[];
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  readonly providers: readonly ProviderState[];
}

/** Asks for all that forms choose from; the first that does not come is the problem of the page. */
export async function loadLists(client: Client): Promise<Asked<Lists>> {
  const asked = await Promise.all(
    (["kinds", "models", "places", "members", "providers"] as const).map((name) => listOf(client, name)),
  );
  const lists: Record<string, unknown> = {};
  let problem: Trouble | undefined;
  for (const one of asked) {
    if ("problem" in one) problem ??= one.problem;
    else Object.assign(lists, one.answer);
  }
  return problem ? { problem } : { answer: lists as unknown as Lists };
}

async function listOf(client: Client, name: keyof Lists): Promise<Asked<object>> {
  const asked = await loadWhole(client, name);
  return "answer" in asked ? { answer: { [name]: asked.answer } } : asked;
}
