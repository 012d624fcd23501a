/** What one kind of contaminant asks for: each value with its source and caution, unset ones said as such. */
import {
  ASKS,
  asksFor,
  type ContaminantRule,
  type Sourced,
} from "../../../server/domain/contamination/contaminant-rule.ts";
import type { HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";
import { DataTable } from "../../look/data-table.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";

const words = EVENT_WORDS;

interface Row {
  readonly what: string;
  readonly says: string;
  readonly source: string;
  readonly caution: string;
}

export function RuleTable({ rule }: { readonly rule: ContaminantRule }) {
  return (
    <div class="rule-table">
      <DataTable
        caption={rule.name}
        rows={rowsOf(rule)}
        rowKey={({ what }) => what}
        columns={[
          { key: "what", head: words.ruleColumn.what, names: true, cell: ({ what }) => what },
          { key: "says", head: words.ruleColumn.says, cell: ({ says }) => says },
          { key: "source", head: words.ruleColumn.source, cell: ({ source }) => source },
          { key: "caution", head: words.ruleColumn.caution, cell: ({ caution }) => caution },
        ]}
      />
    </div>
  );
}

function rowsOf(rule: ContaminantRule): readonly Row[] {
  const rows = ASKS.map((ask) => {
    const value = rule.asks[ask];
    const says = asksFor(rule, ask);
    return row(
      words.ask[ask],
      value,
      says === "not set" ? undefined : words.says[says],
      (said) => words.says[said],
    );
  });
  const { endedBy, handling } = rule;
  const ends = row(
    words.ask["ended by"],
    endedBy,
    endedBy.confirmed && endedBy.says ? sayEnds(endedBy.says) : undefined,
    sayEnds,
  );
  const handled = handling
    ? [
        row(
          words.ask.handling,
          handling,
          handling.confirmed ? (handling.says ?? undefined) : undefined,
          (said) => said,
        ),
      ]
    : [];
  return [...rows, ends, ...handled];
}

function row<Value>(
  what: string,
  value: Sourced<Value>,
  says: string | undefined,
  sayProposed: (value: Value) => string,
): Row {
  const proposed = value.says === null ? "" : ` ${words.proposed(sayProposed(value.says))}`;
  return {
    what,
    says: says ?? `${words.notSet}.${proposed}`,
    source: value.source,
    caution: value.caution ?? "",
  };
}

/** Says which cleanings end it. */
export function sayEnds(hows: readonly HowCleaned[]): string {
  return hows.length === 0 ? words.nothingEnds : hows.map((how) => words.howCleaned[how]).join(", ");
}
