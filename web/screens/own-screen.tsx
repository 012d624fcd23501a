/** Changes one's own passphrase and PIN. */
import { useState } from "preact/hooks";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { FORM_WORDS } from "../look/words-forms.ts";
import { ask } from "./ask.ts";
import { EMPTY_SECRETS, type SecretsDraft, secretsOf, secretsProblems } from "./forms/account-draft.ts";
import { focusFirstWrong } from "./forms/focus-wrong.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";

const words = FORM_WORDS;

export function OwnScreen(props: FormScreenProps) {
  return props.frame({
    verb: props.say.ownSecrets,
    second: words.ownSays,
    children: (
      <Sheet narrow>
        <OwnForm {...props} />
      </Sheet>
    ),
  });
}

function OwnForm({ client, say }: FormScreenProps) {
  const [draft, setDraft] = useState<SecretsDraft>(EMPTY_SECRETS);
  const [isTried, setTried] = useState(false);
  const [isOut, setOut] = useState(false);
  const sending = useSend();
  const set = (field: keyof SecretsDraft) => (value: string) => setDraft({ ...draft, [field]: value });
  const problems = isTried ? secretsProblems(draft, say.passphraseUnequal) : {};
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (Object.keys(secretsProblems(draft, say.passphraseUnequal)).length > 0) return;
    const body = secretsOf(draft);
    const isChanged = await sending.send(
      () => ask(client.post("/api/me/secrets", { body })),
      words.pinChanged,
    );
    if (!isChanged) return;
    setOut(draft.newPassphrase !== "");
    setTried(false);
    setDraft(EMPTY_SECRETS);
  };
  if (isOut) {
    return (
      <Notice
        kind="done"
        head={words.passphraseChanged}
        actions={<Button onPress={() => location.assign("/")}>{words.signInAgain}</Button>}
      />
    );
  }
  const field = (name: keyof SecretsDraft, label: string, autocomplete: string, note?: string) => (
    <TextField
      label={label}
      type="password"
      value={draft[name]}
      onInput={set(name)}
      autocomplete={autocomplete}
      inputmode={name === "newPin" ? "numeric" : undefined}
      note={note}
      problem={problems[name]}
    />
  );
  return (
    <form class="form" noValidate onSubmit={(event) => void send(event)}>
      {field("passphrase", words.passphraseNow, "current-password")}
      {field("newPassphrase", words.newPassphrase, "new-password", say.passphraseNote)}
      {field("again", words.newPassphraseAgain, "new-password")}
      {field("newPin", words.newPin, "off", say.pinNote)}
      <WrittenOrNot sending={sending} say={say} />
      <Button type="submit" weight="solid">
        {words.changeSecrets}
      </Button>
    </form>
  );
}
