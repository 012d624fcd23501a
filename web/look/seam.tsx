/**
 * The verdict strip: a table of what the labels of two layers say, with the seam between them. Rows keep their fixed
 * order and are never sorted by verdict; what differs is large, what agrees is small.
 */
import { SeamDrawing } from "./seam-drawing.tsx";
import { TagNumber } from "./tag-figure.tsx";
import { isStop, type VerdictName } from "./verdict-names.ts";

export type SeamSide = { readonly name: string; readonly number?: string | undefined };

export type SeamRow = {
  readonly key: string;
  /** "Liner code": also the stop's name in the row that differs. */
  readonly label: string;
  /** "not compared". */
  readonly note?: string | undefined;
  readonly left: string;
  readonly right: string;
  readonly verdict: VerdictName;
  /** The row's verdict in words, for ears: "differs", "the same", "not compared". */
  readonly says: string;
};

export type SeamProps = {
  /** What is compared, for ears: "Labels of coat shell and coat liner". */
  readonly caption: string;
  readonly left: SeamSide;
  readonly right: SeamSide;
  readonly rows: readonly SeamRow[];
  /** The right cloth: a liner, or plain cloth for a DRD. */
  readonly rightCloth?: "liner" | "plain" | undefined;
};

const HEAD_HEIGHT = 76;
const PHONE = { head: 74, agreeing: 54, differing: 74 } as const;

/** Gives the heights of agreeing and differing rows at 1280 px: tighter from six rows, and from three differing ones on. */
export function seamHeights(rows: readonly { readonly verdict: VerdictName }[]): {
  readonly agreeing: number;
  readonly differing: number;
} {
  const differing = rows.filter((row) => isOpen(row.verdict)).length;
  return { agreeing: rows.length >= 6 ? 40 : 48, differing: differing >= 3 ? 60 : 84 };
}

/** Draws the strip. */
export function Seam(props: SeamProps) {
  const heights = seamHeights(props.rows);
  const dress = `seam seam-right-${props.rightCloth ?? "liner"}${heights.differing === 60 ? " seam-tight" : ""}`;
  return (
    <div class={dress}>
      <span class="seam-weave only-wide" />
      <span class="seam-quilt only-wide" />
      <table class="seam-table">
        <caption class="for-ears">{props.caption}</caption>
        <thead>
          <tr class={`seam-row seam-high-${HEAD_HEIGHT}`}>
            <td class="seam-label" />
            <th scope="col" class="seam-left">
              <SideHead side={props.left} />
            </th>
            <SeamCell verdict="none" high={HEAD_HEIGHT} phoneHigh={PHONE.head} />
            <th scope="col" class="seam-right">
              <SideHead side={props.right} />
            </th>
          </tr>
        </thead>
        <tbody>
          {props.rows.map((row) => (
            <Row key={row.key} row={row} heights={heights} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function isOpen(verdict: VerdictName): boolean {
  return verdict === "differs" || verdict === "accepted" || verdict === "cannot-tell";
}

function SideHead(props: { readonly side: SeamSide }) {
  return (
    <>
      <span class="seam-side-name">{props.side.name}</span>
      {props.side.number ? (
        <span class="seam-side-number">
          <TagNumber number={props.side.number} />
        </span>
      ) : null}
    </>
  );
}

function Row(props: {
  readonly row: SeamRow;
  readonly heights: { readonly agreeing: number; readonly differing: number };
}) {
  const { row, heights } = props;
  const open = isOpen(row.verdict);
  const high = open ? heights.differing : heights.agreeing;
  const dress = `seam-row seam-high-${high}${open ? " seam-open" : ""}${isStop(row.verdict) ? " seam-stop" : ""}`;
  return (
    <tr class={dress}>
      <th scope="row" class="seam-label">
        <span class="seam-label-text">
          {row.label}
          {row.note ? <span class="seam-note">{row.note}</span> : null}
        </span>
      </th>
      <td class="seam-left">
        <PhoneLabel label={row.label} />
        <Value text={row.left} />
      </td>
      <SeamCell
        verdict={row.verdict}
        high={high}
        phoneHigh={open ? PHONE.differing : PHONE.agreeing}
        says={row.says}
      />
      <td class="seam-right">
        <PhoneLabel label={row.label} />
        <Value text={row.right} />
      </td>
    </tr>
  );
}

/** Codes and sizes are short and never broken at a hyphen; longer values may wrap, and the row grows. */
function Value(props: { readonly text: string }) {
  return <span class={`seam-value${props.text.length > 13 ? " seam-value-long" : ""}`}>{props.text}</span>;
}

function PhoneLabel(props: { readonly label: string }) {
  return (
    <span class="seam-phone-label only-phone" aria-hidden="true">
      {props.label}
    </span>
  );
}

function SeamCell(props: {
  readonly verdict: VerdictName;
  readonly high: number;
  readonly phoneHigh: number;
  readonly says?: string | undefined;
}) {
  return (
    <td class="seam-cell">
      <span class="seam-place only-wide">
        <SeamDrawing verdict={props.verdict} height={props.high} />
      </span>
      <span class="seam-place only-phone">
        <SeamDrawing verdict={props.verdict} height={props.phoneHigh} />
      </span>
      {props.says ? <span class="for-ears">{props.says}</span> : null}
    </td>
  );
}
