/** Runs before this one, with what became of their tags. */
import { ListRows } from "../../look/list-rows.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { ask } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Awaited } from "../record/awaited.tsx";
import { sayStamp } from "../record/days.ts";
import { useAsked } from "../record/use-asked.ts";

const words = PRINT_WORDS;

export interface EarlierRunsProps extends FormScreenProps {
  readonly what: "tags" | "cards";
  readonly onOpen: (run: string) => void;
}

export function EarlierRuns(props: EarlierRunsProps) {
  const { client, say, clock, what, onOpen } = props;
  const asking = useAsked(() => ask(client.get("/api/print-runs")), "runs");
  const runs = asking.answer?.runs.filter((run) => run.what === what);
  return (
    <section class="page-section" aria-label={words.earlier}>
      <h2 class="t-head">{words.earlier}</h2>
      <Awaited asking={asking} what={words.earlier.toLowerCase()} say={say} />
      {runs && runs.length === 0 ? <p class="t-second">{words.noEarlier}</p> : null}
      <ListRows
        label={words.earlier}
        rows={(runs ?? []).map((run) => ({
          key: run.id,
          main: words.runOf(run.what, run.count),
          second: [
            words.by(run.by, sayStamp(Date.parse(run.at), clock.timeZone)),
            words.runStates(run.states),
          ]
            .filter(Boolean)
            .join(". "),
          end: words.open,
          onPress: () => onOpen(run.id),
        }))}
      />
    </section>
  );
}
