/**
 * A printer as far as a print must know it. Lengths are laid out in millimetres and snapped to its dots; `inset`
 * is how far, in dots, filled shapes are drawn inside their edges, since a raster fills every dot that a shape touches.
 */
export interface Printer {
  readonly name: string;
  readonly dotsPerMm: number;
  readonly inset: number;
}

/** 203 dpi heads have 8 dots a millimetre, 203.2 an inch. Source: tag facts 1.3; inset 0.25: tag facts 4.1. */
export const PRINTERS = {
  "203": { name: "203 dpi", dotsPerMm: 8, inset: 0.25 },
  "300": { name: "300 dpi", dotsPerMm: 300 / 25.4, inset: 0.25 },
  "600": { name: "600 dpi", dotsPerMm: 600 / 25.4, inset: 0.25 },
} as const satisfies Record<string, Printer>;
export type PrinterName = keyof typeof PRINTERS;

/** Least dots and least millimetres a module may have; cloth tape spreads ink by an absolute amount. Tag facts 1.3. */
export const LEAST_MODULE_DOTS = 4;
export const LEAST_MODULE_MM = 0.5;

/** Snaps a length in millimetres to whole dots. */
export function dots(mm: number, printer: Printer): number {
  return Math.round(mm * printer.dotsPerMm);
}

/** Turns dots back into millimetres. */
export function millimetres(count: number, printer: Printer): number {
  return count / printer.dotsPerMm;
}

/** Chooses the whole dots of one module near `mm`, never fewer than 4 and never under 0.5 mm. */
export function moduleDots(mm: number, printer: Printer): number {
  const least = Math.ceil(LEAST_MODULE_MM * printer.dotsPerMm - 1e-9);
  return Math.max(dots(mm, printer), least, LEAST_MODULE_DOTS);
}
