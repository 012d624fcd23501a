/** The form of one piece to register: every problem at once, each under its field. */
import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import type { LabelReading } from "../../../server/domain/pieces/label.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { memberLabels, placeLabels } from "../record/name-lists.ts";
import { inTreeOrder } from "../record/place-tree.ts";
import { FileFields } from "./file-fields.tsx";
import { focusFirstWrong } from "./focus-wrong.ts";
import { LabelFields } from "./label-fields.tsx";
import type { Lists } from "./lists.ts";
import {
  countOfDraft,
  EMPTY_DRAFT,
  NOBODY_KNOWS,
  type Problems,
  type RegisterDraft,
  registerProblems,
  sameAgain,
  WITH_MEMBER,
} from "./register-draft.ts";

const words = FORM_WORDS;

export interface RegisterFormProps {
  readonly say: Words;
  readonly lists: Lists;
  readonly today: string;
  /** What the server found wrong, by field. */
  readonly troubles: Readonly<Record<string, string>>;
  readonly onRegister: (draft: RegisterDraft, count: number) => Promise<boolean>;
  /** What became of the last one; stands above the buttons. */
  readonly children: ComponentChildren;
}

export function RegisterForm(props: RegisterFormProps) {
  const { lists, say } = props;
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState<RegisterDraft>(EMPTY_DRAFT);
  const [isTried, setTried] = useState(false);
  const [isTouched, setTouched] = useState(false);
  const set = (changes: Partial<RegisterDraft>) => {
    setDraft({ ...draft, ...changes });
    setTouched(true);
  };
  const own: Problems<RegisterDraft> = isTried ? registerProblems(draft, props.today) : {};
  // What the server said holds for what was sent; it goes when somebody types.
  const problems: Problems<RegisterDraft> = { ...(isTouched ? {} : props.troubles), ...own };
  const register = async (isAgain: boolean) => {
    setTried(true);
    setTouched(false);
    const count = countOfDraft(draft);
    if (Object.keys(registerProblems(draft, props.today)).length > 0 || count === undefined) {
      return focusFirstWrong(form.current);
    }
    if (!(await props.onRegister(draft, count))) return focusFirstWrong(form.current);
    setTried(false);
    setDraft(isAgain ? sameAgain(draft) : { ...EMPTY_DRAFT, where: draft.where });
    // The next piece of a run differs in its serial, a new one begins with its kind.
    form.current?.querySelector<HTMLElement>(isAgain ? '[name="serial"]' : "select")?.focus();
  };
  const kind = lists.kinds.find(({ code }) => code === draft.kind);
  const wrong = Object.keys(own).length;
  return (
    <form
      ref={form}
      class="form form-wide"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void register(true);
      }}
    >
      <div class="field-grid">
        <KindField {...{ lists, draft, set, problems }} />
      </div>
      <Choice
        name="reading"
        legend={words.labelReading}
        value={draft.reading}
        options={(Object.keys(words.readings) as LabelReading[]).map((value) => ({
          ...{ value, label: words.readings[value] },
        }))}
        onChange={(reading) => set({ reading })}
      />
      {problems.reading ? <p class="field-problem">{problems.reading}</p> : null}
      <h2 class="t-head form-head">{words.labelGroup}</h2>
      <p class="t-second">{words.labelGroupNote}</p>
      <LabelFields
        say={say}
        draft={draft}
        problems={problems}
        models={lists.models.filter((model) => model.kind === draft.kind)}
        isShell={kind?.layer === "shell"}
        set={(field, value) => set({ [field]: value })}
      />
      <h2 class="t-head form-head">{words.fileGroup}</h2>
      <FileFields draft={draft} problems={problems} lists={lists} set={set} />
      <h2 class="t-head form-head">{words.whereGroup}</h2>
      <WhereFields {...{ lists, draft, set, problems }} />
      {wrong > 0 ? <Notice kind="fault" head={words.fieldsStop(wrong)} live="assertive" /> : props.children}
      <div class="button-row">
        <Button type="submit" weight="solid">
          {words.registerAgain}
        </Button>
        <Button onPress={() => void register(false)}>{words.register}</Button>
      </div>
      <p class="t-second">{words.sameAgainNote}</p>
    </form>
  );
}

interface PartProps {
  readonly lists: Lists;
  readonly draft: RegisterDraft;
  readonly set: (changes: Partial<RegisterDraft>) => void;
  readonly problems: Problems<RegisterDraft>;
}

function KindField({ lists, draft, set, problems }: PartProps) {
  return (
    <SelectField
      label={words.kind}
      value={draft.kind}
      options={[
        { value: "", label: words.chooseKind },
        ...lists.kinds.map(({ code, name }) => ({ value: code, label: name })),
      ]}
      onChange={(kind) => set({ kind })}
      problem={problems.kind}
    />
  );
}

function WhereFields({ lists, draft, set, problems }: PartProps) {
  const open = inTreeOrder(lists.places.filter(({ closed }) => !closed));
  const members = memberLabels(lists.members.filter(({ leftOn }) => !leftOn));
  const asOptions = (names: readonly { readonly id: string; readonly label: string }[]) =>
    names.map(({ id, label }) => ({ value: id, label }));
  return (
    <div class="field-grid">
      <SelectField
        label={words.holder}
        value={draft.where}
        options={[
          { value: "", label: words.chooseOne },
          ...asOptions(placeLabels(open)),
          { value: WITH_MEMBER, label: words.withMember },
          { value: NOBODY_KNOWS, label: words.nobodyKnows },
        ]}
        onChange={(where) => set({ where, whereMember: "" })}
        problem={problems.where}
      />
      {draft.where === WITH_MEMBER ? (
        <SelectField
          label={words.whichMember}
          value={draft.whereMember}
          options={[{ value: "", label: words.chooseOne }, ...asOptions(members)]}
          onChange={(whereMember) => set({ whereMember })}
          problem={problems.whereMember}
        />
      ) : null}
      <TextField
        label={words.count}
        value={draft.count}
        inputmode="numeric"
        onInput={(count) => set({ count })}
        note={words.countNote}
        problem={problems.count}
      />
      <TextField
        label={words.note}
        lines={3}
        value={draft.note}
        onInput={(note) => set({ note })}
        problem={problems.note}
      />
    </div>
  );
}
