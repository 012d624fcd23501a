/** Opens an account for somebody. */
import { useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { TextField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { type AccountDraft, accountProblems, EMPTY_ACCOUNT } from "./account-draft.ts";
import { BeingFields } from "./being-fields.tsx";
import { focusFirstWrong } from "./focus-wrong.ts";
import type { Lists } from "./lists.ts";

const words = FORM_WORDS;

export interface AccountFormProps {
  readonly say: Words;
  readonly lists: Pick<Lists, "members" | "places">;
  readonly onOpen: (draft: AccountDraft) => Promise<void>;
}

export function AccountForm({ say, lists, onOpen }: AccountFormProps) {
  const [draft, setDraft] = useState<AccountDraft>(EMPTY_ACCOUNT);
  const [isTried, setTried] = useState(false);
  const set = (changes: Partial<AccountDraft>) => setDraft({ ...draft, ...changes });
  const problems = isTried ? accountProblems(draft) : {};
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (Object.keys(accountProblems(draft)).length === 0) await onOpen(draft);
  };
  return (
    <form class="form" noValidate onSubmit={(event) => void send(event)}>
      <TextField
        label={words.accountName}
        value={draft.name}
        onInput={(name) => set({ name })}
        problem={problems.name}
      />
      <BeingFields {...{ say, lists, draft, problems, set }} />
      <Button type="submit" weight="solid">
        {words.openAccount}
      </Button>
    </form>
  );
}
