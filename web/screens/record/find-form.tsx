/** The fields of a search: one for what is scanned or known by heart, the others opened when wanted. */
import { useId, useState } from "preact/hooks";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { EMPTY_QUERY, type FindQuery } from "./find-query.ts";
import { type Choosable, idOfLabel, labelOfId, memberLabels, placeLabels } from "./name-lists.ts";

const words = RECORD_WORDS;

export interface FindFormProps {
  readonly say: Words;
  readonly query: FindQuery;
  readonly onFind: (query: FindQuery) => void;
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  readonly kinds: readonly { readonly code: string; readonly name: string }[];
  readonly models: readonly { readonly name: string }[];
}

const FIND_STATES = Object.keys(words.states) as (keyof typeof words.states)[];

export function FindForm(props: FindFormProps) {
  const members = memberLabels(props.members);
  const holders = [...placeLabels(props.places), ...members];
  const [draft, setDraft] = useState<FindQuery>(props.query);
  const [holder, setHolder] = useState(labelOfId(props.query.holder, holders));
  const [member, setMember] = useState(labelOfId(props.query.member, members));
  const [isOpen, setOpen] = useState(() => {
    const { q: _, ...rest } = props.query;
    return Object.values(rest).some((value) => value !== "");
  });
  const [isTried, setTried] = useState(false);
  const set = (field: keyof FindQuery) => (value: string) => setDraft({ ...draft, [field]: value });
  const holderId = idOfLabel(holder, holders);
  const memberId = idOfLabel(member, members);
  const send = (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (holderId === undefined || memberId === undefined) return;
    setTried(false);
    props.onFind({ ...draft, holder: holderId, member: memberId });
  };
  const clear = () => {
    setDraft(EMPTY_QUERY);
    setHolder("");
    setMember("");
    props.onFind(EMPTY_QUERY);
  };
  return (
    <form class="find-form" onSubmit={send}>
      <div class="field-row">
        <TextField label={words.findText} hint={words.findHint} value={draft.q} onInput={set("q")} name="q" />
        <Button type="submit" weight="solid">
          {words.findNow}
        </Button>
      </div>
      <div class="button-row">
        <Button weight="quiet" expanded={isOpen} controls="find-more" onPress={() => setOpen(!isOpen)}>
          {words.moreFilters}
        </Button>
        <Button weight="quiet" onPress={clear}>
          {props.say.clear}
        </Button>
      </div>
      <div id="find-more" class="field-grid" hidden={!isOpen}>
        <SelectField
          label={words.kind}
          value={draft.kind}
          options={[
            any(words.anyKind),
            ...props.kinds.map(({ code, name }) => ({ value: code, label: name })),
          ]}
          onChange={set("kind")}
        />
        <NameField
          label={words.holder}
          note={words.holderNote}
          value={holder}
          names={holders}
          onInput={setHolder}
          problem={isTried && holderId === undefined ? words.holderUnknown : undefined}
        />
        <NameField
          label={words.ofMember}
          note={words.ofMemberNote}
          value={member}
          names={members}
          onInput={setMember}
          problem={isTried && memberId === undefined ? words.memberUnknown : undefined}
        />
        <SelectField
          label={props.say.model}
          value={draft.model}
          options={[any(words.anyModel), ...modelNames(props).map((name) => ({ value: name, label: name }))]}
          onChange={set("model")}
        />
        <TextField label={props.say.size} value={draft.size} onInput={set("size")} />
        <SelectField
          label={words.state}
          value={draft.state}
          options={[
            any(words.anyState),
            ...FIND_STATES.map((value) => ({ value, label: words.states[value] })),
          ]}
          onChange={set("state")}
        />
        <TextField
          label={words.lastSeenBefore}
          type="date"
          value={draft.lastSeenBefore}
          onInput={set("lastSeenBefore")}
          note={words.lastSeenBeforeNote}
        />
      </div>
    </form>
  );
}

/** One name for all models of that name, and the one that is searched even where the model table lacks it. */
function modelNames({ models, query }: FindFormProps): readonly string[] {
  const names = new Set(models.map(({ name }) => name));
  if (query.model) names.add(query.model);
  return [...names].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}

function any(label: string) {
  return { value: "", label };
}

interface NameFieldProps {
  readonly label: string;
  readonly value: string;
  readonly names: readonly Choosable[];
  readonly onInput: (value: string) => void;
  readonly note?: string;
  readonly problem?: string | undefined;
}

/** As many as one looks through; typing on narrows them. */
const MOST_NAMES = 40;

/** A field for one of many names: it proposes those that hold what is typed. */
function NameField(props: NameFieldProps) {
  const id = useId();
  const typed = props.value.toLowerCase();
  const fitting = props.names.filter(({ label }) => label.toLowerCase().includes(typed)).slice(0, MOST_NAMES);
  return (
    <div>
      <TextField
        label={props.label}
        value={props.value}
        onInput={props.onInput}
        note={props.note}
        problem={props.problem}
        listId={id}
      />
      <datalist id={id}>
        {fitting.map(({ id: key, label }) => (
          <option key={key} value={label} />
        ))}
      </datalist>
    </div>
  );
}
