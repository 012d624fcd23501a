import type { Named } from "../piece-view.ts";
import type { Instant } from "../time.ts";
import type { WhenWords } from "../when-words.ts";
import { readMoment, writeMoment } from "./moment.ts";
import type { TraceContact, TraceView } from "./trace-view.ts";

/** Stands over every list, picture and print of a trace. Source: facts, section 5, item 9. */
export const TRACE_CAUTION =
  "Possible contact is not proof of exposure. Medical meaning belongs to health staff. The record can be incomplete: what is listed as cannot exclude may have met more.";

/** Names a piece with its number, or a holder. */
export function sayNamed({ name, detail, kind }: Named): string {
  return kind === "piece" && detail ? `${name} ${detail.replace(/(.{4})(?=.)/g, "$1 ")}` : name;
}

/** Says how a contact was possibly reached, step by step: "In Bag 14 with coat shell C7K3 …, 12 Nov 2025 04:50 UTC, 80 min." */
export function sayPath(contact: TraceContact, view: TraceView, when: WhenWords): string {
  const lanes = new Map(view.lanes.map((lane) => [lane.id, lane]));
  return contact.path.legs
    .map((leg) => {
      const lane = lanes.get(leg.via);
      const holder = lane
        ? lane.sort === "load"
          ? `a load in ${lane.holder.name}`
          : lane.holder.name
        : "a holder";
      const other = view.names[leg.from === contact.piece ? leg.to : leg.from];
      const shared =
        leg.sharedMs > 0 ? sayLength(leg.sharedMs) : "not there together: the carrier links them";
      const at = when(instantOf(leg.at));
      const doubt = leg.isPresumed ? ", presumed" : "";
      return `In ${holder} with ${other ? sayNamed(other) : "a piece"}, ${at}, ${shared}${doubt}.`;
    })
    .join(" ");
}

function instantOf(text: string): Instant {
  const read = readMoment(text);
  return ("at" in read ? read.at / 1_000 : 0) as Instant;
}

/** Says a length of time: "80 min", "26 h", "3 d". */
export function sayLength(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 120) return `${minutes} min`;
  const hours = Math.round(minutes / 60);
  return hours < 72 ? `${hours} h` : `${Math.round(hours / 24)} d`;
}

/** Says what became of a contact, or that nothing did yet. */
export function sayOutcome({ outcome }: TraceContact): string {
  if (!outcome) return "no outcome yet";
  if (outcome.seenSince) return "seen since it was not found: no outcome";
  return outcome.outcome;
}

const COLUMNS = [
  ...["rank", "piece", "tag", "kind", "steps", "first moment", "by", "shared minutes", "path", "presumed"],
  ...[
    "now with",
    "now since",
    "station",
    "shift",
    "last seen",
    "washed since",
    "how washed",
    "wash accepted",
  ],
  ...["outcome", "outcome at", "outcome by", "reason"],
];

/** Writes a trace's contacts as rows for a spreadsheet, header first: times in ISO 8601, one row a piece, by rank. */
export function contactRows(view: TraceView): string[][] {
  const asIs: WhenWords = (at) => writeMoment(at * 1_000);
  const rows = view.contacts.map((contact) => {
    const { outcome, washedSince } = contact;
    return [
      ...[String(contact.rank), contact.piece, contact.number ?? "", contact.kind.name, String(contact.hops)],
      ...[contact.firstMoment, contact.carries, String(Math.round(contact.sharedMs / 60_000))],
      ...[
        sayPath(contact, view, asIs),
        contact.isPresumed ? "yes" : "no",
        contact.nowWith.name,
        contact.nowSince,
      ],
      ...[contact.station?.name ?? "", contact.shift ?? "", contact.lastSeenAt ?? ""],
      ...[
        washedSince?.at ?? "",
        washedSince?.how ?? "",
        washedSince ? (washedSince.isAccepted ? "yes" : "no") : "",
      ],
      ...[sayOutcome(contact), outcome?.at ?? "", outcome?.by.name ?? "", outcome?.reason ?? ""],
    ];
  });
  return [COLUMNS, ...rows];
}
