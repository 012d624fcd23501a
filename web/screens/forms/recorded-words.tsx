/** The recorded words of makers and verified providers: listed, recorded, withdrawn. */
import { useState } from "preact/hooks";
import type { AcceptanceState } from "../../../server/domain/register/acceptance.ts";
import type { AcceptancesShown } from "../../../server/domain/register/register-views.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Dialog } from "../../look/panel.tsx";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import type { FormScreenProps } from "./form-screen.ts";
import type { Lists } from "./lists.ts";
import type { SendAct } from "./use-acts.ts";
import { sayScope, sayWhoSaid, type WordDraft, wordOfDraft } from "./word-draft.ts";
import { WordForm } from "./word-form.tsx";

const words = FORM_WORDS;

export type RecordedWordsProps = Omit<FormScreenProps, "frame"> & {
  readonly lists: Lists;
  readonly today: string;
  readonly shown: AcceptancesShown;
  readonly sendAct: SendAct;
  /** The two pieces that the page was opened for, by id. */
  readonly given: { readonly shell?: string; readonly layer?: string } | undefined;
  readonly again: () => void;
};

export function RecordedWords(props: RecordedWordsProps) {
  const { me, say, shown, sendAct } = props;
  const mayRecord = me.role === "inspector" || me.role === "program manager";
  const [isAdding, setAdding] = useState(mayRecord && props.given !== undefined);
  const [asked, setAsked] = useState<AcceptanceState>();
  const [id, setId] = useState(() => newId<string>());
  const sending = useSend();
  const record = async (draft: WordDraft) => {
    const command = wordOfDraft(draft, id);
    if (!(await sending.send(() => sendAct("recordAcceptance", command), words.wordWritten))) return;
    setId(newId<string>());
    setAdding(false);
    props.again();
  };
  const withdraw = async ({ id: acceptance }: AcceptanceState) => {
    setAsked(undefined);
    const isWritten = await sending.send(
      () => sendAct("withdrawAcceptance", { acceptance }),
      words.wordWithdrawn,
    );
    if (isWritten) props.again();
  };
  return (
    <section class="page-section" aria-label={words.wordsHead} id="words">
      <div class="trail-bar page-bar">
        <div>
          <h2 class="t-head">{words.wordsHead}</h2>
          <p class="t-second">{words.wordsSay}</p>
        </div>
        {mayRecord ? (
          <Button expanded={isAdding} controls="add-word" onPress={() => setAdding(!isAdding)}>
            {words.addWord}
          </Button>
        ) : null}
      </div>
      <section id="add-word" hidden={!isAdding} aria-label={words.addWord} class="page-form">
        {isAdding ? <WordForm {...props} onWrite={record} /> : null}
      </section>
      <WrittenOrNot sending={sending} say={say} />
      {shown.acceptances.length === 0 ? <Notice kind="empty" head={words.noWords} /> : null}
      <ListRows
        label={words.wordsHead}
        rows={shown.acceptances.map((word) => ({
          key: word.id,
          main: sayScope(word.scope, shown.names),
          second: sayWhoSaid(word),
          end: word.withdrawn ? (
            words.withdrawn
          ) : me.role === "program manager" ? (
            <Button weight="quiet" onPress={() => setAsked(word)}>
              {words.withdraw}
            </Button>
          ) : (
            say.accepted
          ),
        }))}
      />
      <Dialog
        open={asked !== undefined}
        onClose={() => setAsked(undefined)}
        title={words.withdrawAsk}
        closeLabel={say.close}
        actions={<Button onPress={() => asked && void withdraw(asked)}>{words.withdraw}</Button>}
      >
        {asked ? (
          <p>{`${sayScope(asked.scope, shown.names)}. ${sayWhoSaid(asked)}. ${words.withdrawSays}`}</p>
        ) : null}
      </Dialog>
    </section>
  );
}
