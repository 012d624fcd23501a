/** Pieces as a table on wide screens and as rows on phones; each row opens the piece's trail. */
import type { JSX } from "preact";
import type { PieceListed, PieceWith } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import { type Column, DataTable } from "../../look/data-table.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import type { Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { stateWords } from "./state-words.ts";

const words = RECORD_WORDS;

/** A piece found, or one with the time that it was with a holder. */
export type PieceRow = PieceListed & Partial<Pick<PieceWith, "from" | "to" | "evidence" | "recordedLater">>;
type ColumnName = "label" | "with" | "since" | "belongsTo" | "state" | "lastSeen";

export interface PieceTableProps {
  readonly caption: string;
  readonly rows: readonly PieceRow[];
  readonly columns: readonly ColumnName[];
  readonly clock: Clock;
  readonly say: Words;
}

export function PieceTable(props: PieceTableProps) {
  const { say } = props;
  const says = cellWords(props);
  const columns: Column<PieceRow>[] = [
    { key: "piece", head: words.column.piece, names: true, cell: TrailLink },
    { key: "tag", head: words.column.tag, cell: ({ number }) => tagOf(number) ?? say.noTag },
    ...props.columns.map((name) => ({ key: name, head: words.column[name], cell: says[name] })),
  ];
  const key = (row: PieceRow) => `${row.id} ${row.from}`;
  return (
    <>
      <div class="only-wide-or-print">
        <DataTable caption={props.caption} hideCaption columns={columns} rows={props.rows} rowKey={key} />
      </div>
      <div class="only-phone no-print">
        <ListRows
          label={props.caption}
          rows={props.rows.map((row) => ({
            ...{ key: key(row), href: `/pieces/${row.id}` },
            main: (
              <>
                {row.kind.name} {tagOf(row.number)}
              </>
            ),
            second: props.columns
              .map((name) => withoutHead(name, says[name](row)))
              .filter(Boolean)
              .join(" · "),
          }))}
        />
      </div>
    </>
  );
}

function TrailLink({ id, kind }: PieceRow): JSX.Element {
  return (
    <a class="row-link" href={`/pieces/${id}`}>
      {kind.name}
    </a>
  );
}

function tagOf(number: string | undefined) {
  return number ? <TagNumber number={number} /> : undefined;
}

function cellWords({ clock, say }: PieceTableProps): Record<ColumnName, (row: PieceRow) => string> {
  const when = (instant: string) => sayWhen(instant, clock.now, clock.timeZone);
  return {
    label: labelOf,
    with: ({ holder }) => [holder.name, placeAround(holder)].filter(Boolean).join(", "),
    since: (row) => timeOf(row, when),
    belongsTo: ({ assignment }) => (assignment ? `${assignment.member.name}, ${assignment.set}` : ""),
    state: (row) => stateWords(row, say).join(", "),
    lastSeen: ({ seenAt }) => (seenAt ? when(seenAt) : words.notSeen),
  };
}

/** A row of a list has no heads: what stands under one says it itself. */
function withoutHead(name: ColumnName, text: string): string {
  if (text === "") return "";
  if (name === "since") return words.since(text);
  return name === "lastSeen" ? words.lastSeen(text) : text;
}

function labelOf({ maker, modelName, size, serial }: PieceRow): string {
  // A size is one word to those who read it, "44 32 R", and is not broken.
  const parts = [[maker, modelName].filter(Boolean).join(" "), size?.replaceAll(" ", "\u00a0")];
  return [...parts, serial && words.serial(serial)].filter(Boolean).join(", ");
}

function placeAround(holder: Named): string | undefined {
  return holder.kind === "place" ? holder.detail : undefined;
}

/** Says the time with a holder, how it is known where nobody saw the piece, and what was recorded after the day. */
function timeOf({ from, to, evidence, recordedLater }: PieceRow, when: (instant: string) => string): string {
  const isSeen = !evidence || ["scanned", "typed", "with its set"].includes(evidence);
  const parts = [
    from && when(from),
    to && words.until(when(to)),
    !isSeen && evidence,
    recordedLater?.coming && words.comingLater(when(recordedLater.coming)),
    recordedLater?.going && words.goingLater(when(recordedLater.going)),
  ];
  return parts.filter(Boolean).join(", ");
}
