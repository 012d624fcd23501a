/** A kept trace: the picture, the list worked by scanning, whom to call in, and closing it. */

import { useState } from "preact/hooks";
import { sayLength, sayNamed } from "../../../server/domain/tracing/contact-words.ts";
import type { TraceView } from "../../../server/domain/tracing/trace-view.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { ProgressStitches } from "../../look/progress-stitches.tsx";
import { listOf, sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { load } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { CallInList } from "./call-in-list.tsx";
import { TraceTold } from "./trace-told.tsx";
import { isSettled, whenBy } from "./trace-words.ts";
import { WorkList } from "./work-list.tsx";

const words = TRACING_WORDS;

export type TraceScreenProps = FormScreenProps & { readonly trace: string };

export function TraceScreen(props: TraceScreenProps) {
  const { client, trace } = props;
  const asking = useAsked(() => load<TraceView>(client, "/api/traces/{trace}", { trace }), trace);
  const { answer } = asking;
  return props.frame({
    verb: answer?.kept ? sentence(answer.kept.name) : words.traces,
    second: words.keptSays,
    children: (
      <>
        <Awaited asking={asking} what={words.theTrace} say={props.say} />
        {answer?.kept ? <Kept {...props} view={answer} kept={answer.kept} again={asking.again} /> : null}
      </>
    ),
  });
}

type KeptProps = TraceScreenProps & {
  readonly view: TraceView;
  readonly kept: NonNullable<TraceView["kept"]>;
  readonly again: () => void;
};

function Kept(props: KeptProps) {
  const { view, kept, client, clock, say, me, trace } = props;
  const [chosen, setChosen] = useState<string>();
  const sendAct = useActs(client);
  const sending = useSend();
  const when = whenBy(clock);
  const settled = view.contacts.filter(isSettled).length;
  const isOpen = kept.status === "open";
  const works = me.role !== "reader" && isOpen;
  const manages = me.role === "program manager";
  const act = async (command: "traceAnew" | "closeTrace" | "reopenTrace", says: string) => {
    if (await sending.send(() => sendAct(command, { trace } as never), says)) props.again();
  };
  return (
    <Sheet>
      {kept.isDrill ? <Notice kind="unknown" head={words.isDrill} /> : null}
      {kept.changedSince.length > 0 ? (
        <Notice kind="unknown" head={words.older}>
          {[
            words.olderSays(kept.changedSince.length),
            kept.anew
              ? words.anew(listOf(kept.anew.added.map(sayNamed)), listOf(kept.anew.gone.map(sayNamed)))
              : "",
          ]
            .filter(Boolean)
            .join(" ")}
        </Notice>
      ) : null}
      <p>{sentence(words.keptBy(when(kept.keptAt), kept.keptBy.name))}</p>
      {kept.closedAt ? <p>{words.closedAt(when(kept.closedAt))}</p> : null}
      {kept.drill ? (
        <p>
          {words.drillTold(
            sayLength(kept.drill.toListMs),
            kept.drill.foundShare === undefined ? undefined : `${Math.round(kept.drill.foundShare * 100)} %`,
          )}
        </p>
      ) : null}
      <ProgressStitches
        label={words.progress(settled, view.contacts.length)}
        done={settled}
        total={view.contacts.length}
      />
      <div class="button-row no-print">
        {works && kept.changedSince.length > 0 ? (
          <Button onPress={() => void act("traceAnew", words.tracedAnew)}>{words.traceAnew}</Button>
        ) : null}
        <a
          class="button button-plain"
          href={`/api/traces/${trace}/report.pdf`}
          target="_blank"
          rel="noreferrer"
        >
          {words.report}
        </a>
        <a class="button button-plain" href={`/api/traces/${trace}/list.csv`} download>
          {words.spreadsheet}
        </a>
        {manages && isOpen ? (
          <Button onPress={() => void act("closeTrace", words.closedNow)}>{words.close}</Button>
        ) : null}
        {manages && !isOpen ? (
          <Button onPress={() => void act("reopenTrace", words.reopened)}>{words.reopen}</Button>
        ) : null}
        <ButtonLink href="/traces">{words.traces}</ButtonLink>
      </div>
      <WrittenOrNot sending={sending} say={say} />
      {works && view.contacts.length > 0 ? (
        <WorkList {...props} chosen={chosen} onChoose={setChosen} onWritten={props.again} />
      ) : null}
      <TraceTold view={view} clock={clock} onChoose={works ? ({ piece }) => setChosen(piece) : undefined} />
      <CallInList contacts={view.contacts} />
    </Sheet>
  );
}
