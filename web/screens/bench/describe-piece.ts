import type { Named, PieceBrief, PieceView } from "../../../server/domain/piece-view.ts";
import type { Words } from "../../look/words.ts";

const MONTHS = [
  ...["January", "February", "March", "April", "May", "June"],
  ...["July", "August", "September", "October", "November", "December"],
];

/** Says a manufacture date as it is known: `March 2022`, or `14 March 2022`. */
export function sayMade(madeOn: string): string {
  const [year, month, day] = madeOn.split("-");
  const named = `${MONTHS[Number(month) - 1] ?? ""} ${year}`;
  return day ? `${Number(day)} ${named}` : named;
}

/** Says what the label tells of a piece, in two short lines; what is unknown is left out. */
export function labelLines(piece: PieceBrief, say: Words): readonly string[] {
  const { maker, modelName, size, pattern, linerCode, madeOn } = piece.label;
  const isShell = piece.kind.layer === "shell";
  const first = [
    [maker, modelName].filter(Boolean).join(" "),
    size && `size ${size}`,
    pattern && `pattern ${pattern}`,
  ];
  const code = linerCode && (isShell ? `takes liner ${linerCode}` : `liner code ${linerCode}`);
  const second = [code, madeOn && `made ${sayMade(madeOn)}`];
  const lines = [first, second].map((parts) => parts.filter(Boolean).join(", ")).filter(Boolean);
  const said = lines.map((line) => line.charAt(0).toUpperCase() + line.slice(1));
  return piece.labelReading === "read" ? said : [...said, say.labelIs(piece.labelReading)];
}

/** Says when something was, as people at a bench do: `today, 10:24`, or `Fri 20 Nov, 09:41`. */
export function sayWhen(instant: string, now: number, timeZone: string): string {
  const at = new Date(instant);
  const day = (value: Date) => value.toLocaleDateString("en-CA", { timeZone });
  const clock = at.toLocaleTimeString("en-GB", { timeZone, hour: "2-digit", minute: "2-digit" });
  if (day(at) === day(new Date(now))) return `today, ${clock}`;
  const isThisYear = day(at).slice(0, 4) === day(new Date(now)).slice(0, 4);
  // The months of en-US have three letters each; those of en-GB write "Sept".
  const format = new Intl.DateTimeFormat("en-US", {
    ...{ timeZone, weekday: "short", day: "numeric", month: "short", year: "numeric" },
  });
  const parts = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]));
  const date = [parts["weekday"], parts["day"], parts["month"], ...(isThisYear ? [] : [parts["year"]])];
  return `${date.join(" ")}, ${clock}`;
}

/** Gives the holder's name with what stands around it: `Rack B2`, and `gear cage`. */
export function holderParts(piece: PieceView): { readonly main: string; readonly around?: string } {
  const { holder, within } = piece;
  const around = within?.name ?? (holder.kind === "member" ? undefined : holder.detail);
  return { main: holder.name, ...(around ? { around } : {}) };
}

/** Names a piece in a sentence: its kind, and its number where it has one. */
export function pieceName(piece: PieceBrief, say: Words): string {
  const number = piece.number?.replace(/(.{4})(?=.)/g, "$1 ");
  return number ? `${piece.kind.name} ${number}` : `${piece.kind.name}, ${say.noTag}`;
}

/** Finds a name for an id among the names that came with an answer. */
export function nameFor(names: Readonly<Record<string, Named>>, id: string): string {
  const found = names[id];
  if (!found) return "a piece without a name on record";
  const number = found.kind === "piece" ? found.detail?.replace(/(.{4})(?=.)/g, "$1 ") : undefined;
  return number ? `${found.name} ${number}` : found.name;
}
