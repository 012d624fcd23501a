import { type Card, faceOfCard } from "../layout/card-face.ts";
import { layoutCard } from "../layout/card-label.ts";
import { type CardMedia, cardsPerPage, placeCards } from "../layout/card-pages.ts";
import type { PlacedLabel } from "../layout/placed-box.ts";
import type { PrintRefusal } from "../layout/print-refusal.ts";
import type { Printer } from "../layout/printer.ts";
import { type PrintFile, type PrintRun, TAGS_PER_FILE } from "./draw-tags.ts";
import { writePdf } from "./pdf-file.ts";
import { measureText } from "./text-runs.ts";

export interface CardRun {
  readonly cards: readonly Card[];
  readonly media: CardMedia;
  readonly printer: Printer;
}

/** Draws cards as PDF files of at most 1,000 cards, or says every reason why none was drawn. */
export async function drawCardsPdf({ cards, media, printer }: CardRun): Promise<PrintRun> {
  const refusals: PrintRefusal[] = cards.length === 0 ? [{ code: "nothing-to-print" }] : [];
  const labels: PlacedLabel[] = [];
  for (const card of cards) {
    const label = layoutCard(faceOfCard(card), printer, measureText);
    if ("faults" in label)
      refusals.push(...label.faults.map((fault) => ({ ...fault, number: card.number, on: "card" as const })));
    else labels.push(label);
  }
  if (refusals.length > 0) return { refusals };
  const perPage = cardsPerPage(media);
  const perFile = Math.floor(TAGS_PER_FILE / perPage) * perPage;
  const files: PrintFile[] = [];
  for (let start = 0; start < labels.length; start += perFile) {
    const end = Math.min(labels.length, start + perFile);
    const pages = placeCards(labels.slice(start, end), media, printer);
    files.push({ bytes: await writePdf(pages, printer, "Layertrail cards"), start, end });
  }
  return { files };
}
