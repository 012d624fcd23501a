/** What a word is about when it is not about two pieces: models, or liner codes of one maker. */
import { SelectField, TextField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import type { Lists } from "./lists.ts";
import { layersFor } from "./model-draft.ts";
import type { Problems } from "./register-draft.ts";
import type { WordDraft } from "./word-draft.ts";

const words = FORM_WORDS;

interface ScopeFieldsProps {
  readonly lists: Lists;
  readonly draft: WordDraft;
  readonly set: (changes: Partial<WordDraft>) => void;
  readonly problems: Problems<WordDraft>;
}

export function ModelScopeFields({ lists, draft, set, problems }: ScopeFieldsProps) {
  const isShell = (code: string) => lists.kinds.some((kind) => kind.code === code && kind.layer === "shell");
  const shells = lists.models.filter(({ kind }) => isShell(kind));
  const shellKind = shells.find(({ id }) => id === draft.shellModel)?.kind ?? "";
  const layerKinds = new Set(layersFor(shellKind, lists.kinds).map(({ code }) => code));
  const asOptions = (models: typeof shells) =>
    models.map(({ id, maker, name }) => ({ value: id as string, label: `${maker} ${name}` }));
  return (
    <div class="field-grid">
      <SelectField
        label={words.shellModel}
        value={draft.shellModel}
        options={[{ value: "", label: words.chooseOne }, ...asOptions(shells)]}
        onChange={(shellModel) => set({ shellModel, layerModel: "" })}
        problem={problems.shellModel}
      />
      <SelectField
        label={words.layerModel}
        value={draft.layerModel}
        options={[
          { value: "", label: words.layerModelNone },
          ...asOptions(lists.models.filter(({ kind }) => layerKinds.has(kind))),
        ]}
        onChange={(layerModel) => set({ layerModel })}
        problem={problems.layerModel}
      />
      <TextField
        label={words.linerCodeIs}
        value={draft.linerCode}
        onInput={(linerCode) => set({ linerCode })}
        problem={problems.linerCode}
      />
      <TextField
        label={words.shellSize}
        value={draft.shellSize}
        onInput={(shellSize) => set({ shellSize })}
        problem={problems.shellSize}
      />
      <TextField
        label={words.layerSize}
        value={draft.layerSize}
        onInput={(layerSize) => set({ layerSize })}
        problem={problems.layerSize}
      />
    </div>
  );
}

export function CodeScopeFields(props: ScopeFieldsProps & { readonly say: Words }) {
  const { draft, set, problems } = props;
  return (
    <div class="field-grid">
      <TextField
        label={props.say.maker}
        value={draft.maker}
        onInput={(maker) => set({ maker })}
        problem={problems.maker}
      />
      <TextField
        label={words.shellTakes}
        value={draft.shellTakes}
        onInput={(shellTakes) => set({ shellTakes })}
        problem={problems.shellTakes}
      />
      <TextField
        label={words.linerCodeIs}
        value={draft.linerCode}
        onInput={(linerCode) => set({ linerCode })}
        problem={problems.linerCode}
      />
    </div>
  );
}
