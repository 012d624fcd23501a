import type { MemberBrief, PlaceBrief } from "../../server/domain/scan-answer.ts";
import type { Client } from "../api/client.ts";
import { loadList } from "./ask.ts";
import { memberName } from "./bench/mode.ts";
import type { HolderChoice } from "./record/correct-dialog.tsx";

interface Party {
  readonly id: string;
  readonly name: string;
}

/** Asks for all who can have custody, by name: places, members, providers, outside parties, and nobody known. */
export async function loadHolders(client: Client): Promise<readonly HolderChoice[]> {
  const [places, members, providers, outside] = await Promise.all([
    loadList<PlaceBrief>(client, "places"),
    loadList<MemberBrief>(client, "members"),
    loadList<Party>(client, "providers"),
    loadList<Party>(client, "outside"),
  ]);
  const choice = (
    kind: "place" | "member" | "provider" | "outside",
    id: string,
    name: string,
    detail?: string,
  ) => ({
    holder: { kind, id } as HolderChoice["holder"],
    name,
    detail,
  });
  return [
    ...places.map(({ id, name, within }) => choice("place", id, name, within?.name)),
    ...members.map((member) => choice("member", member.id, memberName(member), member.number)),
    ...providers.map(({ id, name }) => choice("provider", id, name)),
    ...outside.map(({ id, name }) => choice("outside", id, name)),
    { holder: { kind: "in transit" }, name: "In transit" },
    { holder: { kind: "whereabouts unknown" }, name: "Whereabouts unknown" },
  ];
}
