import type { Instant } from "../../server/domain/time.ts";
import { sayNamed, sayOutcome, sayPath, TRACE_CAUTION } from "../../server/domain/tracing/contact-words.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import type { WhenWords } from "../../server/domain/when-words.ts";
import { writePdf } from "../draw/pdf-file.ts";
import { measureText } from "../draw/text-runs.ts";
import type { Face, PlacedBox, PlacedPage } from "../layout/placed-box.ts";
import { PRINTERS } from "../layout/printer.ts";

/** US Letter, which A4 printers take at actual size with a margin. In millimetres. */
const PAGE = { width: 215.9, height: 279.4, margin: 16 };
interface Line {
  readonly face: Face;
  readonly text: string;
  /** Type size and room to the next line, in millimetres. */
  readonly size: number;
  readonly room: number;
  readonly indent?: number;
}

/**
 * Draws the report of a trace: what was asked, the list with paths and outcomes, what cannot be excluded and what was not
 * followed, with its caution and the position of the record. The same trace gives the same bytes.
 */
export function drawTraceReport(view: TraceView, when: WhenWords): Promise<Uint8Array> {
  const printer = PRINTERS["300"];
  const dots = printer.dotsPerMm;
  const lines = linesOf(view, when).flatMap((line) => wrapped(line));
  const pages: PlacedBox[][] = [[]];
  let y = PAGE.margin;
  for (const line of lines) {
    if (y + line.room > PAGE.height - PAGE.margin - 6) {
      pages.push([]);
      y = PAGE.margin;
    }
    y += line.room;
    const x = PAGE.margin + (line.indent ?? 0);
    pages.at(-1)?.push(textAt(line.text, line.face, line.size * dots, x * dots, y * dots));
  }
  const [width, height] = [Math.round(PAGE.width * dots), Math.round(PAGE.height * dots)];
  const placed = pages.map((boxes, index): PlacedPage => {
    const foot = `${view.startName}, ${view.direction}. Record up to position ${view.position}. Page ${index + 1} of ${pages.length}.`;
    const baseline = (PAGE.height - PAGE.margin) * dots;
    const all = [...boxes, textAt(printable(foot), "body", 3 * dots, PAGE.margin * dots, baseline)];
    return { width, height, labels: [{ x: 0, y: 0, label: { width, height, boxes: all } }], marks: [] };
  });
  return writePdf(placed, printer, `Layertrail trace: ${view.kept?.name ?? view.startName}`);
}

function textAt(text: string, face: Face, size: number, x: number, baseline: number): PlacedBox {
  return { box: "text", text, face, size, x, baseline, ink: "black", spacing: 0 };
}

function linesOf(view: TraceView, when: WhenWords): readonly Line[] {
  const at = (text: string) => when(Date.parse(text) as Instant);
  const title = (text: string): Line => ({ face: "heading", text, size: 7, room: 9 });
  const head = (text: string): Line => ({ face: "heading", text, size: 4.6, room: 9 });
  const strong = (text: string): Line => ({ face: "line", text, size: 3.8, room: 6.5 });
  const body = (text: string): Line => ({ face: "body", text, size: 3.4, room: 4.8, indent: 6 });
  const plain = (text: string): Line => ({ face: "body", text, size: 3.6, room: 5 });
  const { contacts, kept, cuts } = view;
  const settled = contacts.filter((one) => one.outcome && !one.outcome.seenSince).length;
  const was = view.direction === "forward" ? "were possibly reached" : "may be where it came from";
  return [
    title(kept?.name ?? view.startName),
    ...(kept?.isDrill ? [strong("Drill. It places no holds.")] : []),
    plain(
      `${view.startName}, ${view.direction}. From ${at(view.from)} to ${at(view.to)}, within ${cuts.hops} steps.`,
    ),
    plain(
      `${view.roots.length} pieces were there, ${contacts.length} more ${was}. ${settled} have an outcome.`,
    ),
    ...(kept && kept.changedSince.length > 0
      ? [strong(`Older than the record: ${kept.changedSince.length} later acts touch what it read.`)]
      : []),
    plain(TRACE_CAUTION),
    head("Possible contacts"),
    ...contacts.flatMap((contact) => [
      strong(
        `${contact.rank}. ${sayNamed(contact.name)}, ${contact.hops} ${contact.hops === 1 ? "step" : "steps"}`,
      ),
      body(sayPath(contact, view, when)),
      body(`Now with ${contact.nowWith.name} since ${at(contact.nowSince)}.${washed(contact, at)}`),
      body(`Outcome: ${sayOutcome(contact)}${by(contact, at)}`),
    ]),
    head("Cannot exclude"),
    ...(view.cannotExclude.length === 0 ? [plain("No time without a record among these pieces.")] : []),
    ...view.cannotExclude.map((gap) =>
      body(`${sayNamed(gap.name)}: ${gap.why} from ${at(gap.from)}${gap.to ? ` to ${at(gap.to)}` : " on"}.`),
    ),
    head("Not followed"),
    ...(view.notFollowed.length === 0 ? [plain("Every holder was followed.")] : []),
    ...view.notFollowed.map(({ holder, pieces }) =>
      body(
        `${holder.name}: things are kept apart there by the record; ${pieces.length} of these pieces were there.`,
      ),
    ),
  ];
}

function washed({ washedSince }: TraceView["contacts"][number], at: (text: string) => string): string {
  if (!washedSince) return "";
  const word = washedSince.isAccepted ? "accepted by policy" : "not accepted by policy for this";
  return ` Washed since: ${washedSince.how}, ${at(washedSince.at)}, ${word}.`;
}

function by({ outcome }: TraceView["contacts"][number], at: (text: string) => string): string {
  if (!outcome) return ".";
  const why = outcome.reason ? `: ${outcome.reason}` : "";
  return `, ${at(outcome.at)}, ${outcome.by.name}${why}.`;
}

/** Breaks a line between words where it would leave the page. */
function wrapped(line: Line): readonly Line[] {
  const most = PAGE.width - 2 * PAGE.margin - (line.indent ?? 0);
  const lines: string[] = [];
  let current = "";
  for (const word of printable(line.text).split(" ")) {
    const longer = current === "" ? word : `${current} ${word}`;
    if (widthOf(longer, line) <= most || current === "") current = longer;
    else {
      lines.push(current);
      current = word;
    }
  }
  return [...lines, current].map((text) => ({ ...line, text }));
}

function widthOf(text: string, { face, size }: Line): number {
  const measured = measureText(text, face);
  return "code" in measured ? 0 : measured.width * size;
}

/** A sign that no font of ours draws is shown as "?": a report is read beside the record, which has it. */
function printable(text: string): string {
  return [...text]
    .map((sign) =>
      "code" in measureText(sign, "body") || "code" in measureText(sign, "heading") ? "?" : sign,
    )
    .join("");
}
