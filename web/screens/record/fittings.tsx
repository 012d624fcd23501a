/** Which shell a layer was in, or which layers were in a shell, and what their labels said then. */
import type { FittingSpan, TrailView } from "../../../server/domain/page-views.ts";
import { DataTable } from "../../look/data-table.tsx";
import { sentence } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { Said } from "./said.tsx";
import { namePiece } from "./trail-words.ts";

const words = RECORD_WORDS;

export function Fittings(props: { readonly view: TrailView; readonly clock: Clock }) {
  const { fittings, piece } = props.view;
  const { clock } = props;
  if (fittings.length === 0) return null;
  const when = (instant: string) => sayWhen(instant, clock.now, clock.timeZone);
  return (
    <section class="page-section">
      <h2 class="t-head">{piece.kind.layer === "shell" ? words.wasHeld : words.wasIn}</h2>
      <DataTable<FittingSpan>
        caption={words.fittingsCaption}
        hideCaption
        columns={[
          {
            ...{ key: "piece", head: words.column.piece, names: true },
            cell: ({ piece: other }) => (
              <a class="row-link" href={`/pieces/${other.id}`}>
                <span>
                  <Said text={sentence(namePiece(other))} />
                </span>
              </a>
            ),
          },
          { key: "from", head: words.column.from, cell: ({ from }) => when(from) },
          { key: "until", head: words.column.until, cell: ({ to }) => (to ? when(to) : words.stillThere) },
          { key: "labels", head: words.column.labels, cell: ({ verdict }) => words.verdicts[verdict] },
        ]}
        rows={fittings}
        rowKey={({ from, piece: other }) => `${from} ${other.id}`}
      />
    </section>
  );
}
