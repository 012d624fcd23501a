import type { MemberBrief } from "../../../server/domain/scan-answer.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayLongDay } from "./days.ts";

const words = RECORD_WORDS;

/** Gives the members whose name or number holds each word that was typed; those who left come last. */
export function membersBy(members: readonly MemberBrief[], text: string): readonly MemberBrief[] {
  const wanted = text.toLowerCase().split(/\s+/).filter(Boolean);
  return members
    .filter(({ name = "", number }) => {
      const own = `${name} ${number}`.toLowerCase();
      return wanted.every((word) => own.includes(word));
    })
    .toSorted(
      (a, b) =>
        Number(Boolean(a.leftOn)) - Number(Boolean(b.leftOn)) ||
        Number(!a.name) - Number(!b.name) ||
        (a.name ?? "").localeCompare(b.name ?? "", "en") ||
        a.number.localeCompare(b.number, "en", { numeric: true }),
    );
}

/** Says number, station and shift of a member in one line. */
export function memberLine(member: MemberBrief): string {
  const { number, station, shift, leftOn } = member;
  return [
    words.memberNumbered(number),
    station?.name,
    shift && words.onShift(shift),
    leftOn && words.leftOn(sayLongDay(leftOn)),
  ]
    .filter(Boolean)
    .join(", ");
}
