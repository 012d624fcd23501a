/** Signs a person in by name and passphrase, and says what is wrong in one line. */
import { useState } from "preact/hooks";
import type { Trouble } from "../api/answer.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { Notice } from "../look/notice.tsx";
import { Page, Sheet } from "../look/page.tsx";
import { Tape } from "../look/tape.tsx";
import type { Words } from "../look/words.ts";

export type Asked<Answer> = { readonly answer: Answer } | { readonly problem: Trouble };

export interface SignInScreenProps {
  readonly say: Words;
  readonly signIn: (signInName: string, passphrase: string) => Promise<Asked<unknown>>;
  readonly onSignedIn: () => void;
}

export function SignInScreen(props: SignInScreenProps) {
  const { say } = props;
  const [name, setName] = useState("");
  const [passphrase, setPassphrase] = useState("");
  const [wrong, setWrong] = useState<Trouble>();
  const send = async (event: Event) => {
    event.preventDefault();
    const asked = await props.signIn(name, passphrase);
    if ("answer" in asked) props.onSignedIn();
    else setWrong(asked.problem);
  };
  return (
    <Page tape={<Tape verb={say.signIn} second={say.signInSays} writes={false} menuLabel={say.menu} slim />}>
      <Sheet narrow>
        <form class="form" onSubmit={(event) => void send(event)}>
          <TextField label={say.signInName} value={name} onInput={setName} autocomplete="username" required />
          <TextField
            label={say.passphrase}
            type="password"
            value={passphrase}
            onInput={setPassphrase}
            autocomplete="current-password"
            required
          />
          {wrong ? (
            <Notice kind="fault" head={wrong.title} live="assertive">
              {wrong.detail}
            </Notice>
          ) : null}
          <Button type="submit" weight="solid">
            {say.signIn}
          </Button>
        </form>
        <Cautions say={say} />
      </Sheet>
    </Page>
  );
}

/** What the program is not: shown where people come in. */
export function Cautions(props: { readonly say: Words }) {
  return (
    <section class="cautions" aria-label={props.say.cautionsHead}>
      <h2 class="t-sub">{props.say.cautionsHead}</h2>
      <ul>
        {props.say.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
