/** The form of a maker's or verified provider's word: what it is about, who says it, and where it is written. */
import { useState } from "preact/hooks";
import type { ProviderState } from "../../../server/domain/register/parties.ts";
import type { Client } from "../../api/client.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { focusFirstWrong } from "./focus-wrong.ts";
import type { Lists } from "./lists.ts";
import { PieceByTag } from "./piece-by-tag.tsx";
import { CodeScopeFields, ModelScopeFields } from "./scope-fields.tsx";
import { EMPTY_WORD, type ScopeKind, type WordDraft, wordProblems } from "./word-draft.ts";

const words = FORM_WORDS;

export interface WordFormProps {
  readonly client: Client;
  readonly say: Words;
  readonly lists: Lists;
  readonly today: string;
  /** The two pieces that the page was opened for, by id. */
  readonly given?: { readonly shell?: string; readonly layer?: string } | undefined;
  readonly onWrite: (draft: WordDraft) => Promise<void>;
}

export function WordForm(props: WordFormProps) {
  const { client, say, lists, today, given } = props;
  const [draft, setDraft] = useState<WordDraft>(EMPTY_WORD);
  const [isTried, setTried] = useState(false);
  const set = (changes: Partial<WordDraft>) => setDraft((before) => ({ ...before, ...changes }));
  const problems = isTried ? wordProblems(draft, today) : {};
  const wrong = Object.keys(problems).length;
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (Object.keys(wordProblems(draft, today)).length === 0) await props.onWrite(draft);
  };
  return (
    <div class="form form-wide">
      <Choice
        name="scope"
        legend={words.scope}
        value={draft.what}
        options={(Object.keys(words.scopes) as ScopeKind[]).map((value) => ({
          ...{ value, label: words.scopes[value] },
        }))}
        onChange={(what) => set({ what })}
      />
      {draft.what === "pieces" ? (
        <>
          <PieceByTag
            client={client}
            say={say}
            label={words.shellTag}
            given={given?.shell}
            problem={problems.shell}
            onPiece={(piece) => set({ shell: piece?.id ?? "" })}
          />
          <PieceByTag
            client={client}
            say={say}
            label={words.layerTag}
            given={given?.layer}
            problem={problems.layer}
            onPiece={(piece) => set({ layer: piece?.id ?? "" })}
          />
        </>
      ) : null}
      <form class="form form-wide" noValidate onSubmit={(event) => void send(event)}>
        {draft.what === "models" ? <ModelScopeFields {...{ lists, draft, set, problems }} /> : null}
        {draft.what === "codes" ? <CodeScopeFields {...{ say, lists, draft, set, problems }} /> : null}
        <SaidByFields {...{ draft, set, problems }} providers={lists.providers} />
        {wrong > 0 ? <Notice kind="fault" head={words.fieldsStop(wrong)} live="assertive" /> : null}
        <div class="button-row">
          <Button type="submit" weight="solid">
            {words.addWord}
          </Button>
        </div>
      </form>
    </div>
  );
}

function SaidByFields(props: {
  readonly draft: WordDraft;
  readonly set: (changes: Partial<WordDraft>) => void;
  readonly problems: Readonly<Partial<Record<keyof WordDraft, string>>>;
  readonly providers: readonly ProviderState[];
}) {
  const { draft, set, problems } = props;
  return (
    <>
      <Choice
        name="said-by"
        legend={words.saidBy}
        value={draft.saidBy}
        options={(["maker", "provider"] as const).map((value) => ({
          ...{ value, label: words.saidByIs[value] },
        }))}
        onChange={(saidBy) => set({ saidBy })}
      />
      <div class="field-grid">
        <TextField
          label={words.saidByName}
          value={draft.saidByName}
          onInput={(saidByName) => set({ saidByName })}
          problem={problems.saidByName}
          listId={draft.saidBy === "provider" ? "word-providers" : undefined}
        />
        <datalist id="word-providers">
          {props.providers
            .filter(({ closed }) => !closed)
            .map(({ id, name }) => (
              <option key={id} value={name} />
            ))}
        </datalist>
        <TextField
          label={words.document}
          value={draft.document}
          onInput={(document) => set({ document })}
          note={words.documentNote}
          problem={problems.document}
        />
        <TextField
          label={words.saidOn}
          type="date"
          value={draft.saidOn}
          onInput={(saidOn) => set({ saidOn })}
          problem={problems.saidOn}
        />
      </div>
    </>
  );
}
