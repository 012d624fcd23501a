import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";

/** A name that can be chosen, and what it stands for. */
export interface Choosable {
  readonly id: string;
  readonly label: string;
}

/** Names places so that two of one name are told apart: `Rack B2, Gear cage`. */
export function placeLabels(places: readonly PlaceBrief[]): readonly Choosable[] {
  return places.map(({ id, name, within }) => ({ id, label: within ? `${name}, ${within.name}` : name }));
}

/** Names members with their number: `Corwin Bask, 214`; one whose name was removed by the number alone. */
export function memberLabels(members: readonly MemberBrief[]): readonly Choosable[] {
  return members.map(({ id, name, number }) => ({ id, label: name ? `${name}, ${number}` : number }));
}

/**
 * Gives the id of what was typed: the whole label, or one part of it (the name, the number) that no other name has.
 * An empty text gives an empty id; undefined when no name or more than one fits.
 */
export function idOfLabel(text: string, names: readonly Choosable[]): string | undefined {
  const typed = text.trim().toLowerCase();
  if (typed === "") return "";
  const whole = names.filter(({ label }) => label.toLowerCase() === typed);
  if (whole.length === 1) return whole[0]?.id;
  const parts = names.filter(({ label }) =>
    label
      .toLowerCase()
      .split(", ")
      .some((part) => part === typed),
  );
  return parts.length === 1 ? parts[0]?.id : undefined;
}

/** Gives the label of an id; empty when it is not among the names. */
export function labelOfId(id: string, names: readonly Choosable[]): string {
  return names.find((name) => name.id === id)?.label ?? "";
}
