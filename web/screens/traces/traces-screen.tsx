/** Kept traces, newest first. */
import type { TraceListed } from "../../../server/domain/tracing/trace-view.ts";
import { ButtonLink } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { load } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { whenBy } from "./trace-words.ts";

const words = TRACING_WORDS;

export function TracesScreen(props: FormScreenProps) {
  const { client, say, clock } = props;
  const asking = useAsked(() => load<{ traces: readonly TraceListed[] }>(client, "/api/traces"), "traces");
  const when = whenBy(clock);
  const traces = asking.answer?.traces;
  return props.frame({
    verb: words.traces,
    second: words.tracesSay,
    children: (
      <>
        <Awaited asking={asking} what={words.theTraces} say={say} />
        {traces ? (
          <Sheet>
            <div class="button-row">
              <ButtonLink href="/trace">{words.newTrace}</ButtonLink>
            </div>
            {traces.length === 0 ? (
              <Notice kind="empty" head={words.noTraces}>
                {words.noTracesNext}
              </Notice>
            ) : (
              <ListRows
                label={words.traces}
                rows={traces.map((trace) => ({
                  key: trace.id,
                  href: `/traces/${trace.id}`,
                  main: sentence(trace.name),
                  second: [
                    trace.isDrill ? words.drill : "",
                    words.keptBy(when(trace.keptAt), trace.keptBy.name),
                    trace.closedAt ? words.closed : "",
                  ]
                    .filter(Boolean)
                    .join(" · "),
                  end: words.counts(trace.settled, trace.contacts),
                }))}
              />
            )}
          </Sheet>
        ) : null}
      </>
    ),
  });
}
