import { CARD_MM } from "./card-label.ts";
import { PAPERS, type PaperName } from "./media.ts";
import type { Line, PlacedBox, PlacedLabel, PlacedPage } from "./placed-box.ts";
import { dots, type Printer } from "./printer.ts";

/** Where cards are printed: one page a card, or four on a sheet across, with marks to cut along. */
export type CardMedia = "single" | PaperName;

const COLUMNS = 2;
const ROWS = 2;
const CUT = { awayMm: 2, lengthMm: 5, thickMm: 0.2 };

/** Counts the cards that one page takes. */
export function cardsPerPage(media: CardMedia): number {
  return media === "single" ? 1 : COLUMNS * ROWS;
}

/** Puts laid-out cards on pages at whole dots, in the order given; sheets lie across and carry cut marks. */
export function placeCards(
  cards: readonly PlacedLabel[],
  media: CardMedia,
  printer: Printer,
): readonly PlacedPage[] {
  if (media === "single")
    return cards.map((label) => ({
      width: label.width,
      height: label.height,
      labels: [{ x: 0, y: 0, label }],
      marks: [],
    }));
  const paper = PAPERS[media];
  const width = dots(paper.heightMm, printer);
  const height = dots(paper.widthMm, printer);
  const cardWidth = dots(CARD_MM.width, printer);
  const cardHeight = dots(CARD_MM.height, printer);
  const left = Math.floor((width - COLUMNS * cardWidth) / 2);
  const top = Math.floor((height - ROWS * cardHeight) / 2);
  const marks = [cutMarks(left, top, cardWidth, cardHeight, printer)];
  const perPage = cardsPerPage(media);
  return Array.from({ length: Math.ceil(cards.length / perPage) }, (_, page) => ({
    width,
    height,
    labels: cards.slice(page * perPage, (page + 1) * perPage).map((label, at) => ({
      x: left + (at % COLUMNS) * cardWidth,
      y: top + Math.floor(at / COLUMNS) * cardHeight,
      label,
    })),
    marks,
  }));
}

/** Short lines outside the cards, in line with every cut. */
function cutMarks(left: number, top: number, width: number, height: number, printer: Printer): PlacedBox {
  const away = CUT.awayMm * printer.dotsPerMm;
  const far = away + CUT.lengthMm * printer.dotsPerMm;
  const right = left + COLUMNS * width;
  const bottom = top + ROWS * height;
  const lines: Line[] = [];
  for (let column = 0; column <= COLUMNS; column += 1) {
    const x = left + column * width;
    lines.push([x, top - away, x, top - far], [x, bottom + away, x, bottom + far]);
  }
  for (let row = 0; row <= ROWS; row += 1) {
    const y = top + row * height;
    lines.push([left - away, y, left - far, y], [right + away, y, right + far, y]);
  }
  return { box: "strokes", lines, thick: CUT.thickMm * printer.dotsPerMm, ink: "black" };
}
