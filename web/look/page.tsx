/**
 * The page: tape above, hem below, both fixed; what lies between scrolls. And the bench's two surfaces: the
 * cutting table at the left and a panel of cloth at the right, which meet at an ink rule.
 */
import type { ComponentChildren } from "preact";

export type PageProps = {
  readonly tape: ComponentChildren;
  readonly hem?: ComponentChildren | undefined;
  /** The offline sign, above the hem on every screen. */
  readonly sign?: ComponentChildren | undefined;
  readonly children: ComponentChildren;
};

/** Draws the page in the order in which it is walked: tape, main, hem. */
export function Page(props: PageProps) {
  return (
    <div class="page">
      {props.tape}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the middle scrolls, so a keyboard must reach it */}
      <main class="page-main" id="main" tabIndex={0}>
        {props.children}
      </main>
      {props.sign ? <div class="page-sign">{props.sign}</div> : null}
      {props.hem}
    </div>
  );
}

export type BenchProps = {
  /** What lies on the cutting table: figure, labels, hold ribbon. */
  readonly table: ComponentChildren;
  readonly children: ComponentChildren;
  /** look: the table takes 610; check: 426, so that the strip has room. */
  readonly split?: "look" | "check" | undefined;
};

/** Draws the two surfaces of the bench; on phones the table lies above the cloth. */
export function Bench(props: BenchProps) {
  return (
    <div class={`bench bench-${props.split ?? "look"}`}>
      <div class="bench-table cutting-table">{props.table}</div>
      <div class="bench-cloth">{props.children}</div>
    </div>
  );
}

/** Draws the place of a figure on the cutting table, in the middle of what the ribbon leaves. */
export function BenchFigure(props: { readonly children: ComponentChildren }) {
  return <div class="bench-figure">{props.children}</div>;
}

/** Draws a band of cloth under the tray: fields of the act, edge to edge. */
export function Band(props: {
  readonly children: ComponentChildren;
  readonly threaded?: boolean | undefined;
}) {
  return (
    <div class="band">
      {props.threaded ? <BandThread /> : null}
      {props.children}
    </div>
  );
}

/** Draws the upright piece of the tray's thread through a surface that lies between tray and hem. */
export function BandThread() {
  return (
    <svg class="band-thread" width="32" height="100%" aria-hidden="true">
      <line class="thread-line" x1="16" y1="0" x2="16" y2="100%" />
    </svg>
  );
}

/** Draws a page of cloth with margins, for trails, lists and forms. */
export function Sheet(props: {
  readonly children: ComponentChildren;
  readonly narrow?: boolean | undefined;
}) {
  return <div class={`sheet${props.narrow ? " sheet-narrow" : ""}`}>{props.children}</div>;
}
