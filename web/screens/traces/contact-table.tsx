/** The possible contacts of a trace as a table: what the picture shows, in words, with what became of each. */
import type { TraceContact, TraceView } from "../../../server/domain/tracing/trace-view.ts";
import { Button } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { nameOf, outcomeSays, pathOf, whenBy } from "./trace-words.ts";

const words = TRACING_WORDS;

export interface ContactTableProps {
  readonly view: TraceView;
  readonly clock: Clock;
  /** Given where outcomes are recorded. */
  readonly onChoose?: ((contact: TraceContact) => void) | undefined;
}

export function ContactTable({ view, clock, onChoose }: ContactTableProps) {
  const when = whenBy(clock);
  const isKept = view.kept !== undefined;
  return (
    <DataTable
      caption={words.list}
      hideCaption
      rows={view.contacts}
      rowKey={({ piece }) => piece}
      columns={[
        { key: "rank", head: words.column.rank, cell: ({ rank }) => rank },
        {
          key: "piece",
          head: words.column.piece,
          names: true,
          cell: (contact) => (
            <a class="row-link" href={`/pieces/${contact.piece}`}>
              {sentence(nameOf(contact))}
            </a>
          ),
        },
        {
          key: "how",
          head: words.column.how,
          cell: (contact) => `${words.steps(contact.hops)}. ${pathOf(contact, view, clock)}`,
        },
        {
          key: "first",
          head: view.direction === "forward" ? words.column.first : words.column.last,
          cell: ({ firstMoment, isPresumed }) =>
            [sentence(when(firstMoment)), isPresumed ? words.presumed : ""].filter(Boolean).join(", "),
        },
        {
          key: "now",
          head: words.column.now,
          cell: ({ nowWith, nowSince, lastSeenAt }) =>
            [nowWith.name, words.since(when(nowSince)), lastSeenAt ? words.lastSeen(when(lastSeenAt)) : ""]
              .filter(Boolean)
              .join(", "),
        },
        {
          key: "washed",
          head: words.column.washed,
          cell: ({ washedSince }) =>
            washedSince
              ? sentence(words.washed(when(washedSince.at), washedSince.how, washedSince.isAccepted))
              : words.notWashed,
        },
        ...(isKept
          ? [
              {
                key: "outcome",
                head: words.column.outcome,
                cell: (contact: TraceContact) => (
                  <>
                    <span>{outcomeSays(contact.outcome, when)}</span>
                    {onChoose ? (
                      <Button weight="quiet" onPress={() => onChoose(contact)}>
                        {words.sayOutcome}
                        <span class="for-ears">{` ${nameOf(contact)}`}</span>
                      </Button>
                    ) : null}
                  </>
                ),
              },
            ]
          : []),
      ]}
    />
  );
}
