import type { MemberBrief, ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { Client } from "../../api/client.ts";
import { load } from "../ask.ts";

/** Who or what a scan at the scene names. */
export type There =
  | { readonly kind: "member"; readonly id: string }
  | { readonly kind: "piece"; readonly id: string; readonly title: string }
  | { readonly kind: "not yours" }
  | { readonly kind: "neither" };

/** Finds a member by number, or asks what a card or a tag names. */
export async function findThere(
  client: Client,
  members: readonly MemberBrief[],
  text: string,
): Promise<There> {
  const typed = text.trim();
  const known = members.find(({ number }) => number.toLowerCase() === typed.toLowerCase());
  if (known) return { kind: "member", id: known.id };
  const query = { mode: "event", via: "wedge" };
  const asked = await load<ScanAnswer>(client, "/api/scan/{text}", { text: typed }, query);
  if ("problem" in asked) return { kind: "neither" };
  const { answer } = asked;
  if (answer.kind === "member") return { kind: "member", id: answer.member.id };
  if (answer.kind === "not-yours") return { kind: "not yours" };
  if ((answer.kind === "piece" || answer.kind === "foreign") && answer.piece) {
    const { id, kind, number } = answer.piece;
    const tag = number?.replace(/(.{4})(?=.)/g, "$1 ");
    return { kind: "piece", id, title: [kind.name, tag].filter(Boolean).join(" ") };
  }
  return { kind: "neither" };
}
