/** What a machine ran, one row a piece, so that it can be looked for. */
import type { LoadView } from "../../../server/domain/cleaning/machine-view.ts";
import { DataTable } from "../../look/data-table.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";

const words = MACHINE_WORDS;
/** Without a question the page shows the last loads; a time in doubt is shown whole. */
const MOST_ROWS = 60;

interface LoadsTableProps {
  readonly loads: readonly LoadView[];
  readonly clock: Clock;
  readonly isWhole: boolean;
}

export function LoadsTable({ loads, clock, isWhole }: LoadsTableProps) {
  const rows = loads.flatMap((load) => load.pieces.map((piece) => ({ load, piece })));
  const { columns: head } = words;
  return (
    <DataTable
      caption={words.loads}
      hideCaption
      rows={isWhole ? rows : rows.slice(0, MOST_ROWS)}
      rowKey={({ load, piece }) => `${load.id} ${piece.id}`}
      columns={[
        {
          key: "piece",
          head: head.piece,
          names: true,
          cell: ({ piece }) => (
            <a href={`/pieces/${piece.id}`}>
              {piece.kind} {piece.number ? <TagNumber number={piece.number} /> : null}
            </a>
          ),
        },
        {
          key: "started",
          head: head.started,
          cell: ({ load }) =>
            [
              sayWhen(load.startedAt, clock.now, clock.timeZone),
              load.about ? words.about(load.about.minutes) : "",
            ]
              .filter(Boolean)
              .join(", "),
        },
        { key: "programme", head: head.programme, cell: ({ load }) => load.programme ?? "" },
        { key: "outcome", head: head.outcome, cell: ({ load }) => load.outcome ?? words.running },
        { key: "where", head: head.where, cell: ({ piece }) => piece.where.name },
        { key: "since", head: head.since, cell: ({ piece }) => (piece.washedSince ? words.yes : words.no) },
      ]}
    />
  );
}
