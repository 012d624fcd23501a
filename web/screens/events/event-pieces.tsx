/** The pieces of an event: how known, where now, what is still asked; a table on wide screens, rows on phones. */
import type { EventPage, PieceAtEvent } from "../../../server/domain/contamination/event-views.ts";
import { Button } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import { midSentence, type Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";

const words = EVENT_WORDS;

export interface EventPiecesProps {
  readonly page: EventPage;
  readonly say: Words;
  readonly onNotThere: ((piece: string) => void) | undefined;
}

export function EventPieces({ page, say, onNotThere }: EventPiecesProps) {
  const kinds = new Map(page.rules.map(({ code, name }) => [code, name]));
  return (
    <DataTable
      caption={words.pieces}
      hideCaption
      rows={page.pieces}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "piece",
          head: words.column.piece,
          names: true,
          cell: ({ id, kind }) => (
            <a class="row-link" href={`/pieces/${id}`}>
              {kind.name}
            </a>
          ),
        },
        {
          key: "tag",
          head: words.column.tag,
          cell: ({ number }) => (number ? <TagNumber number={number} /> : say.noTag),
        },
        { key: "known", head: words.column.known, cell: knownAs },
        { key: "now", head: words.column.now, cell: nowWith },
        {
          key: "asked",
          head: words.column.asked,
          cell: ({ open }) =>
            open.length === 0
              ? words.nothingAsked
              : open.map((code) => midSentence(kinds.get(code) ?? code)).join(", "),
        },
        ...(onNotThere
          ? [
              {
                key: "off",
                head: words.column.off,
                cell: (piece: PieceAtEvent) => (
                  <Button weight="quiet" onPress={() => onNotThere(piece.id)}>
                    {words.takeOff}
                    <span class="for-ears">{` ${piece.kind.name} ${piece.number ?? ""}`}</span>
                  </Button>
                ),
              },
            ]
          : []),
      ]}
    />
  );
}

function knownAs({ evidence }: PieceAtEvent): string {
  return evidence === "presumed" ? words.presumed : evidence;
}

function nowWith({ holder, within }: PieceAtEvent): string {
  return [holder.name, within?.name].filter(Boolean).join(", ");
}
