/** Starting a trace: from what, which way, how far; then the picture and the list, and keeping it. */
import { useState } from "preact/hooks";
import type { EventListed } from "../../../server/domain/contamination/event-views.ts";
import type { TraceView } from "../../../server/domain/tracing/trace-view.ts";
import type { Client } from "../../api/client.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { CheckField, SelectField, TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { ask, load } from "../ask.ts";
import { findThere } from "../events/find-there.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { useAsked } from "../record/use-asked.ts";
import { problemSays, useSend, WrittenOrNot } from "../record/use-send.tsx";
import { goTo } from "../use-place.ts";
import {
  type DraftProblem,
  draftFromAddress,
  hasSpan,
  questionOf,
  STARTS,
  type StartKind,
  type TraceDraft,
} from "./trace-draft.ts";
import { TraceTold } from "./trace-told.tsx";

const words = TRACING_WORDS;

interface Named {
  readonly id: string;
  readonly name?: string | null;
  readonly number?: string;
}

const LIST_OF: Readonly<Partial<Record<StartKind, string>>> = {
  ...{ event: "events", member: "members", place: "places", machine: "machines", provider: "providers" },
};

export function NewTraceScreen(props: FormScreenProps) {
  const { client, clock, me } = props;
  const [draft, setDraft] = useState(() => draftFromAddress(location.search, clock.now, clock.timeZone));
  const [isTried, setTried] = useState(false);
  const [traced, setTraced] = useState<{ readonly view: TraceView; readonly question: object }>();
  const [trouble, setTrouble] = useState<string>();
  const list = useAsked(() => listFor(client, draft.start), draft.start);
  const event =
    draft.start === "event"
      ? (list.answer as readonly EventListed[] | undefined)?.find(({ id }) => id === draft.id)
      : undefined;
  const made = questionOf(draft, clock.timeZone, event);
  const missing: readonly DraftProblem[] = isTried && "missing" in made ? made.missing : [];
  const trace = async () => {
    setTried(true);
    if (!("question" in made)) return;
    const asked = await ask(client.post("/api/trace", { body: made.question as never }));
    setTrouble("problem" in asked ? problemSays(asked.problem) : undefined);
    setTraced(
      "answer" in asked ? { view: asked.answer as unknown as TraceView, question: made.question } : undefined,
    );
  };
  return props.frame({
    verb: words.newTrace,
    second: words.newTraceSays,
    children: (
      <Sheet>
        <form
          class="form no-print"
          onSubmit={(submitted) => {
            submitted.preventDefault();
            void trace();
          }}
        >
          <StartFields {...{ client, draft, list: list.answer ?? [], missing, onChange: setDraft }} />
          <Choice
            name="direction"
            legend={words.direction}
            value={draft.direction}
            options={[
              { value: "forward", label: words.forward },
              { value: "backward", label: words.backward },
            ]}
            onChange={(direction) => setDraft({ ...draft, direction })}
          />
          <Choice
            name="hops"
            legend={words.hops}
            value={draft.hops}
            options={["1", "2", "3", "4"].map((value) => ({ value, label: value }))}
            onChange={(hops) => setDraft({ ...draft, hops })}
          />
          <p class="field-note">{words.hopsNote}</p>
          <TextField
            label={words.days}
            value={draft.days}
            inputmode="numeric"
            onInput={(days) => setDraft({ ...draft, days })}
            problem={missing.includes("days") ? words.needsDays : undefined}
          />
          <Button type="submit" weight="solid">
            {words.trace}
          </Button>
        </form>
        {trouble ? <Notice kind="fault" head={trouble} live="assertive" /> : null}
        {traced ? (
          <>
            <TraceTold view={traced.view} clock={clock} />
            {me.role === "reader" ? null : (
              <KeepForm {...props} view={traced.view} question={traced.question} />
            )}
          </>
        ) : null}
      </Sheet>
    ),
  });
}

async function listFor(client: Client, start: StartKind) {
  const name = LIST_OF[start];
  if (!name) return { answer: [] };
  const asked = await load<Readonly<Record<string, readonly Named[]>>>(client, `/api/${name}`);
  return "answer" in asked ? { answer: asked.answer[name] ?? [] } : asked;
}

function StartFields(props: {
  readonly client: Client;
  readonly draft: TraceDraft;
  readonly list: readonly Named[];
  readonly missing: readonly DraftProblem[];
  readonly onChange: (draft: TraceDraft) => void;
}) {
  const { client, draft, list, missing, onChange } = props;
  const [text, setText] = useState("");
  const [told, setTold] = useState<string>();
  const take = async () => {
    const there = await findThere(client, [], text);
    setTold(there.kind === "piece" ? words.taken(there.title) : words.notFound(text));
    if (there.kind === "piece") onChange({ ...draft, id: there.id });
  };
  return (
    <>
      <SelectField
        label={words.start}
        value={draft.start}
        options={STARTS.filter((start) => start !== "load" || draft.start === "load").map((value) => ({
          value,
          label: words.startFrom[value],
        }))}
        onChange={(start) => onChange({ ...draft, start: start as StartKind, id: "" })}
      />
      {LIST_OF[draft.start] ? (
        <SelectField
          label={words.which}
          value={draft.id}
          options={[
            { value: "", label: words.chooseOne },
            ...list.map(({ id, name, number }) => ({ value: id, label: name ?? number ?? id })),
          ]}
          onChange={(id) => onChange({ ...draft, id })}
          problem={missing.includes("start") ? words.needsStart : undefined}
        />
      ) : null}
      {draft.start === "piece" ? (
        <>
          <TextField
            label={words.scanIt}
            value={text}
            onInput={setText}
            mono
            scans="fill"
            problem={missing.includes("start") ? words.needsStart : undefined}
          />
          <Button onPress={() => void take()}>{words.take}</Button>
          <p role="status">{told ?? ""}</p>
        </>
      ) : null}
      {draft.start === "piece" || hasSpan(draft.start) ? (
        <TextField
          label={draft.start === "piece" ? words.at : words.from}
          type="datetime-local"
          value={draft.from}
          onInput={(from) => onChange({ ...draft, from })}
          problem={missing.includes("times") ? words.needsTimes : undefined}
        />
      ) : null}
      {hasSpan(draft.start) ? (
        <TextField
          label={words.to}
          type="datetime-local"
          value={draft.to}
          onInput={(to) => onChange({ ...draft, to })}
        />
      ) : null}
    </>
  );
}

function KeepForm(props: FormScreenProps & { readonly view: TraceView; readonly question: object }) {
  const { client, say, view, question } = props;
  const [name, setName] = useState(sentence(view.startName));
  const [isDrill, setDrill] = useState(false);
  const [isTried, setTried] = useState(false);
  const sendAct = useActs(client);
  const sending = useSend();
  const keep = async () => {
    setTried(true);
    if (name.trim() === "") return;
    const id = newId();
    const body = { id, name: name.trim(), isDrill, asked: question };
    if (await sending.send(() => sendAct("keepTrace", body as never), words.kept)) goTo(`/traces/${id}`);
  };
  return (
    <section class="page-section no-print">
      <h2 class="t-head">{words.keepHead}</h2>
      <p>{words.keepNote}</p>
      <div class="form">
        <TextField
          label={words.name}
          note={words.nameNote}
          value={name}
          onInput={setName}
          problem={isTried && name.trim() === "" ? words.needsName : undefined}
        />
        <CheckField label={words.asDrill} checked={isDrill} onChange={setDrill} />
        <Button weight="solid" onPress={() => void keep()}>
          {words.keep}
        </Button>
      </div>
      <WrittenOrNot sending={sending} say={say} />
    </section>
  );
}
