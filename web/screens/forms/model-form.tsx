/** The form of one row of the model table. */
import { useState } from "preact/hooks";
import type { ModelSource } from "../../../server/domain/register/model.ts";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import { Button } from "../../look/buttons.tsx";
import { CheckField, SelectField, TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { focusFirstWrong } from "./focus-wrong.ts";
import type { Lists } from "./lists.ts";
import {
  draftOfModel,
  EMPTY_MODEL,
  layersFor,
  type ModelDraft,
  modelProblems,
  withKind,
} from "./model-draft.ts";
import { TakesFields } from "./takes-fields.tsx";

const words = FORM_WORDS;
const SOURCES = Object.keys(words.sources) as readonly ModelSource[];
const WASHES = Object.keys(words.washes) as readonly (keyof typeof words.washes)[];

export interface ModelFormProps {
  readonly say: Words;
  readonly lists: Lists;
  readonly today: string;
  /** The row that is changed; without it a new one is added. */
  readonly model?: ModelShown | undefined;
  readonly onWrite: (draft: ModelDraft) => Promise<void>;
}

export function ModelForm(props: ModelFormProps) {
  const { lists, say, today } = props;
  const [draft, setDraft] = useState<ModelDraft>(() =>
    props.model ? draftOfModel(props.model) : EMPTY_MODEL,
  );
  const [isTried, setTried] = useState(false);
  const set = (changes: Partial<ModelDraft>) => setDraft({ ...draft, ...changes });
  const problems = isTried ? modelProblems(draft, today) : {};
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (Object.keys(modelProblems(draft, today)).length === 0) await props.onWrite(draft);
  };
  const layers = layersFor(draft.kind, lists.kinds);
  const wrong = Object.keys(problems).length;
  return (
    <form class="form form-wide" noValidate onSubmit={(event) => void send(event)}>
      <div class="field-grid">
        <TextField
          label={say.maker}
          value={draft.maker}
          onInput={(maker) => set({ maker })}
          problem={problems.maker}
        />
        <TextField
          label={words.modelName}
          value={draft.name}
          onInput={(name) => set({ name })}
          problem={problems.name}
        />
        <SelectField
          label={words.kind}
          value={draft.kind}
          options={[
            { value: "", label: words.chooseKind },
            ...lists.kinds.map(({ code, name }) => ({ value: code, label: name })),
          ]}
          onChange={(kind) => setDraft(withKind(draft, kind))}
          problem={problems.kind}
        />
        <SelectField
          label={words.wash}
          value={draft.wash}
          options={[
            { value: "", label: words.unknownPick },
            ...WASHES.map((value) => ({ value, label: words.washes[value] })),
          ]}
          onChange={(wash) => set({ wash: wash as ModelDraft["wash"] })}
        />
        <SelectField
          label={words.source}
          value={draft.sourceWhat}
          options={SOURCES.filter((value) => value !== "imported" || draft.sourceWhat === value).map(
            (value) => ({ value, label: words.sources[value] }),
          )}
          onChange={(what) => set({ sourceWhat: what as ModelSource })}
        />
        <TextField
          label={words.sourceDay}
          type="date"
          value={draft.sourceOn}
          onInput={(sourceOn) => set({ sourceOn })}
          problem={problems.sourceOn}
        />
      </div>
      {draft.kind === "" ? null : layers.length === 0 ? (
        <p class="t-second">{words.layersNone}</p>
      ) : (
        <>
          <fieldset class="layer-checks">
            <legend class="t-head">{words.layersNeeded}</legend>
            {layers.map(({ code, name }) => (
              <CheckField
                key={code}
                label={name}
                checked={draft.layers.includes(code)}
                onChange={(isNeeded) =>
                  set({
                    layers: isNeeded ? [...draft.layers, code] : draft.layers.filter((one) => one !== code),
                  })
                }
              />
            ))}
          </fieldset>
          <TakesFields
            say={say}
            layers={layers}
            models={lists.models}
            rows={draft.takes}
            problem={problems.takes}
            onRows={(takes) => set({ takes })}
          />
        </>
      )}
      {wrong > 0 ? <Notice kind="fault" head={words.fieldsStop(wrong)} live="assertive" /> : null}
      <div class="button-row">
        <Button type="submit" weight="solid">
          {props.model ? words.changeModel : words.addModel}
        </Button>
      </div>
    </form>
  );
}
