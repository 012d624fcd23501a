/** What each kind of contaminant asks for, with the source of each value, and every change of it. */
import { useState } from "preact/hooks";
import {
  ASKS,
  type Ask,
  type ContaminantRule,
  unruled,
} from "../../../server/domain/contamination/contaminant-rule.ts";
import type { ContaminantsShown } from "../../../server/domain/contamination/event-views.ts";
import { HOW_CLEANED, type HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { CheckField, TextField } from "../../look/fields.tsx";
import { Sheet } from "../../look/page.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load } from "../ask.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { RuleTable, sayEnds } from "./rule-table.tsx";

const words = EVENT_WORDS;

export function ContaminantsScreen(props: FormScreenProps) {
  const asking = useAsked(() => load<ContaminantsShown>(props.client, "/api/contaminants"), "contaminants");
  const { answer } = asking;
  return props.frame({
    verb: words.contaminants,
    second: words.contaminantsSay,
    children: (
      <>
        <Awaited asking={asking} what={words.theContaminants} say={props.say} />
        {answer ? <Rules {...props} shown={answer} again={asking.again} /> : null}
      </>
    ),
  });
}

type RulesProps = FormScreenProps & { readonly shown: ContaminantsShown; readonly again: () => void };

function Rules(props: RulesProps) {
  const { shown, me, say } = props;
  const manages = me.role === "program manager";
  const [open, setOpen] = useState<string>();
  const sending = useSend();
  const sendAct = useActs(props.client);
  const save = async (rule: ContaminantRule) => {
    const isWritten = await sending.send(
      () => sendAct("ruleContaminant", { rule } as never),
      words.ruleSet(rule.name),
    );
    if (!isWritten) return;
    setOpen(undefined);
    props.again();
  };
  return (
    <Sheet>
      <WrittenOrNot sending={sending} say={say} />
      {shown.rules.map(({ isOwn, ...rule }) => (
        <section class="page-section" key={rule.code}>
          <RuleTable rule={rule} />
          <p class="field-note">{isOwn ? words.isOwn : words.asCame}</p>
          {manages ? (
            <Button
              expanded={open === rule.code}
              controls={`set-${rule.code}`}
              onPress={() => setOpen(open === rule.code ? undefined : rule.code)}
            >
              {words.setRule(rule.name)}
            </Button>
          ) : null}
          <div id={`set-${rule.code}`} hidden={open !== rule.code} class="page-form">
            {open === rule.code ? <RuleForm rule={rule} onSave={save} /> : null}
          </div>
        </section>
      ))}
      {manages ? (
        <section class="page-section">
          <Button
            expanded={open === NEW}
            controls="set-new"
            onPress={() => setOpen(open === NEW ? undefined : NEW)}
          >
            {words.addKind}
          </Button>
          <div id="set-new" hidden={open !== NEW} class="page-form">
            {open === NEW ? <RuleForm rule={unruled("", "")} isNew onSave={save} /> : null}
          </div>
        </section>
      ) : null}
      <History {...props} />
    </Sheet>
  );
}

const NEW = " new";
type Chosen = "yes" | "no" | "unset";

/** Values that the department sets are its own: the source that it gives stands beside each of them. */
function RuleForm(props: {
  readonly rule: ContaminantRule;
  readonly isNew?: boolean;
  readonly onSave: (rule: ContaminantRule) => Promise<void>;
}) {
  const { rule, isNew } = props;
  const [name, setName] = useState(rule.name);
  const [source, setSource] = useState("");
  const [isTried, setTried] = useState(false);
  const [asks, setAsks] = useState<Readonly<Record<Ask, Chosen>>>(chosenAsks(rule));
  const [ends, setEnds] = useState<readonly HowCleaned[] | undefined>(
    rule.endedBy.confirmed ? (rule.endedBy.says ?? undefined) : undefined,
  );
  const code = isNew ? codeOf(name) : rule.code;
  const save = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (source.trim() === "" || code === "") return;
    await props.onSave(ruleAsSet({ ...rule, code, name: name.trim() }, asks, ends, source.trim()));
  };
  return (
    <form class="form" onSubmit={(event) => void save(event)}>
      {isNew ? <TextField label={words.kindName} value={name} onInput={setName} /> : null}
      {ASKS.map((ask) => (
        <Choice
          key={ask}
          name={`${rule.code}-${ask}`}
          legend={words.ask[ask]}
          value={asks[ask]}
          options={[
            { value: "yes", label: words.says.yes },
            { value: "no", label: words.says.no },
            { value: "unset", label: words.leaveUnset },
          ]}
          onChange={(says) => setAsks({ ...asks, [ask]: says })}
        />
      ))}
      <fieldset class="choice event-kinds">
        <legend class="choice-legend">{words.ask["ended by"]}</legend>
        {HOW_CLEANED.map((how) => (
          <CheckField
            key={how}
            label={words.howCleaned[how]}
            checked={ends?.includes(how) === true}
            onChange={(isIn) =>
              setEnds(isIn ? [...(ends ?? []), how] : (ends ?? []).filter((one) => one !== how))
            }
          />
        ))}
        <CheckField
          label={words.leaveUnset}
          checked={ends === undefined}
          onChange={(isUnset) => setEnds(isUnset ? undefined : [])}
        />
      </fieldset>
      <TextField
        label={words.source}
        value={source}
        onInput={setSource}
        note={words.sourceNote}
        problem={isTried && source.trim() === "" ? words.needsSource : undefined}
      />
      <Button type="submit" weight="solid">
        {words.saveRule}
      </Button>
    </form>
  );
}

function chosenAsks(rule: ContaminantRule): Record<Ask, Chosen> {
  const chosen = (ask: Ask): Chosen =>
    rule.asks[ask].confirmed ? (rule.asks[ask].says ?? "unset") : "unset";
  return {
    isolate: chosen("isolate"),
    specialist: chosen("specialist"),
    "share a load": chosen("share a load"),
    dispose: chosen("dispose"),
  };
}

/** A value that was not changed keeps the source that it came with; what is left unset keeps its proposal. */
function ruleAsSet(
  rule: ContaminantRule,
  asks: Readonly<Record<Ask, Chosen>>,
  ends: readonly HowCleaned[] | undefined,
  source: string,
): ContaminantRule {
  const before = chosenAsks(rule);
  const asked = (ask: Ask): ContaminantRule["asks"][Ask] => {
    const says = asks[ask];
    if (says === before[ask]) return rule.asks[ask];
    if (says === "unset") return { ...rule.asks[ask], confirmed: false };
    const { caution } = rule.asks[ask];
    return { says, source, confirmed: true, ...(caution ? { caution } : {}) };
  };
  const { caution } = rule.endedBy;
  const isSame = rule.endedBy.confirmed && JSON.stringify(rule.endedBy.says) === JSON.stringify(ends);
  const unset = { ...rule.endedBy, confirmed: false };
  const set = ends && { says: ends, source, confirmed: true, ...(caution ? { caution } : {}) };
  return {
    ...rule,
    asks: {
      isolate: asked("isolate"),
      specialist: asked("specialist"),
      "share a load": asked("share a load"),
      dispose: asked("dispose"),
    },
    endedBy: isSame ? rule.endedBy : (set ?? unset),
  };
}

function codeOf(name: string): string {
  const code = name
    .trim()
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^[^a-z]+|-+$/g, "");
  return code.length > 1 ? code.slice(0, 38) : "";
}

function History({ shown, clock }: RulesProps) {
  const { history } = shown;
  return (
    <section class="page-section">
      <h2 class="t-head">{words.history}</h2>
      {history.length === 0 ? (
        <p>{words.noHistory}</p>
      ) : (
        <DataTable
          caption={words.history}
          hideCaption
          rows={[...history].reverse()}
          rowKey={({ version }) => String(version)}
          columns={[
            {
              key: "when",
              head: words.historyColumn.when,
              cell: ({ at }) => sayWhen(at, clock.now, clock.timeZone),
            },
            { key: "who", head: words.historyColumn.who, cell: ({ by }) => by.name },
            { key: "kind", head: words.historyColumn.kind, names: true, cell: ({ rule }) => rule.name },
            { key: "says", head: words.historyColumn.says, cell: ({ rule, note }) => saysOf(rule, note) },
          ]}
        />
      )}
    </section>
  );
}

function saysOf(rule: ContaminantRule, note: string | undefined): string {
  const asks = ASKS.map((ask) => {
    const { says, confirmed } = rule.asks[ask];
    return `${words.ask[ask]}: ${confirmed && says ? words.says[says] : words.leaveUnset}`;
  });
  const ends = rule.endedBy.confirmed && rule.endedBy.says ? sayEnds(rule.endedBy.says) : words.leaveUnset;
  return [...asks, `${words.ask["ended by"]}: ${ends}`, note].filter(Boolean).join(". ");
}
