/** Pieces as a table on wide screens and as rows on phones; each row opens the piece's trail. */
import type { Named, PieceBrief } from "../../../server/domain/piece-view.ts";
import { type Column, DataTable } from "../../look/data-table.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import type { Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { stateWords } from "./state-words.ts";

const words = RECORD_WORDS;

export interface PieceRow {
  readonly piece: PieceBrief;
  readonly belongsTo?: { readonly member: Named; readonly set: string } | undefined;
  readonly since?: string | undefined;
  readonly to?: string | undefined;
  readonly lastSeen?: string | undefined;
  /** Recorded after the day that is asked for. */
  readonly isLater?: boolean | undefined;
}

type ColumnName = "tag" | "label" | "with" | "since" | "belongsTo" | "state" | "lastSeen";

export interface PieceTableProps {
  readonly caption: string;
  readonly rows: readonly PieceRow[];
  readonly columns: readonly ColumnName[];
  readonly clock: Clock;
  readonly say: Words;
}

export function PieceTable(props: PieceTableProps) {
  const cells = cellsOf(props);
  const columns: Column<PieceRow>[] = [
    {
      key: "piece",
      head: words.column.piece,
      names: true,
      cell: ({ piece }) => (
        <a class="row-link" href={`/pieces/${piece.id}`}>
          {piece.kind.name}
        </a>
      ),
    },
    ...props.columns.map((name) => ({ key: name, head: words.column[name], cell: cells[name] })),
  ];
  return (
    <>
      <div class="only-wide-or-print">
        <DataTable
          caption={props.caption}
          hideCaption
          columns={columns}
          rows={props.rows}
          rowKey={(row) => `${row.piece.id} ${row.since}`}
        />
      </div>
      <div class="only-phone no-print">
        <ListRows
          label={props.caption}
          rows={props.rows.map((row) => ({
            key: `${row.piece.id} ${row.since}`,
            href: `/pieces/${row.piece.id}`,
            main: (
              <>
                {row.piece.kind.name} {row.piece.number ? <TagNumber number={row.piece.number} /> : null}
              </>
            ),
            second: props.columns
              .filter((name) => name !== "tag")
              .map((name) => cells[name](row))
              .filter(Boolean)
              .join(" · "),
          }))}
        />
      </div>
    </>
  );
}

type Cells = {
  readonly [Name in ColumnName]: (row: PieceRow) => Name extends "tag" ? preact.JSX.Element | string : string;
};

function cellsOf({ clock, say }: PieceTableProps): Cells {
  const when = (instant: string) => sayWhen(instant, clock.now, clock.timeZone);
  return {
    tag: ({ piece }) => (piece.number ? <TagNumber number={piece.number} /> : say.noTag),
    label: ({ piece }) => labelOf(piece),
    with: ({ piece }) => [piece.holder.name, placeAround(piece.holder)].filter(Boolean).join(", "),
    since: (row) => sinceWords(row, when),
    belongsTo: ({ belongsTo }) => (belongsTo ? `${belongsTo.member.name}, ${belongsTo.set}` : ""),
    state: ({ piece }) => stateWords(piece, say).join(", "),
    lastSeen: ({ lastSeen }) => (lastSeen ? when(lastSeen) : words.notSeen),
  };
}

function labelOf({ label }: PieceBrief): string {
  return [[label.maker, label.modelName].filter(Boolean).join(" "), label.size].filter(Boolean).join(", ");
}

function placeAround(holder: Named): string | undefined {
  return holder.kind === "place" ? holder.detail : undefined;
}

function sinceWords(row: PieceRow, when: (instant: string) => string): string {
  const parts = [
    row.since && words.since(when(row.since)),
    row.to && words.until(when(row.to)),
    row.isLater && words.recordedLater,
  ];
  return parts.filter(Boolean).join(", ");
}
