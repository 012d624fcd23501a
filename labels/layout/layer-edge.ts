import type { Line, PlacedBox, Rectangle } from "./placed-box.ts";
import { dots, type Printer } from "./printer.ts";

/** The drawing at a tag's right edge: it repeats the words, it is no code. */
export type LayerEdge = "grid" | "lozenge" | "slant" | "none";

/** Draws a layer edge into an area of whole dots: grid for a shell, lozenges for a liner, slant for a DRD. */
export function drawLayerEdge(edge: LayerEdge, area: Rectangle, printer: Printer): readonly PlacedBox[] {
  switch (edge) {
    case "grid":
      return grid(area, printer);
    case "lozenge":
      return [lozenges(area, printer)];
    case "slant":
      return [slant(area, printer)];
    case "none":
      return [];
  }
}

/** Weave of a shell: pairs of bars 0.75 mm apart, every 2.5 mm, both ways. */
function grid(area: Rectangle, printer: Printer): readonly PlacedBox[] {
  const thick = dots(0.25, printer);
  const at = (length: number, firstMm: number) =>
    Array.from({ length: 2 * Math.ceil(length / dots(2.5, printer)) }, (_, index) =>
      dots(firstMm + 2.5 * Math.floor(index / 2) + (index % 2) * 0.75, printer),
    ).filter((start) => start + thick <= length);
  const across = at(area.height, 0.25).map((y) => ({ ...area, y: area.y + y, height: thick }));
  const along = at(area.width, 0.375).map((x) => ({ ...area, x: area.x + x, width: thick }));
  return [...across, ...along].map((bar) => ({ box: "bar", ink: "black", ...bar }));
}

/** Quilt of a liner: lines both ways at 45°, every 2.5 mm, meeting in the middle of the edge. */
function lozenges(area: Rectangle, printer: Printer): PlacedBox {
  const pitch = 2.5 * printer.dotsPerMm;
  const { x, width } = area;
  const lines: Line[] = [];
  for (let y = area.y - width + pitch / 2; y < area.y + area.height + width; y += pitch) {
    lines.push([x, y, x + width, y + width], [x, y + width, x + width, y]);
  }
  return { box: "strokes", lines, thick: 0.25 * printer.dotsPerMm, ink: "black", clip: area };
}

/** Webbing of a DRD: broad slanting bars. */
function slant(area: Rectangle, printer: Printer): PlacedBox {
  const { x, width } = area;
  const rise = width * 0.6;
  const lines: Line[] = [];
  for (let y = area.y; y < area.y + area.height + rise; y += 1.375 * printer.dotsPerMm) {
    lines.push([x - width, y + rise, x + 2 * width, y - 2 * rise]);
  }
  return { box: "strokes", lines, thick: 0.6 * printer.dotsPerMm, ink: "black", clip: area };
}
