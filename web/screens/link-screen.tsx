/** Uses a one-time link: the first program manager, joining, or a new passphrase. The secret stays behind the #. */
import { useEffect, useState } from "preact/hooks";
import type { Trouble } from "../api/answer.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { Notice } from "../look/notice.tsx";
import { Page, Sheet } from "../look/page.tsx";
import { Tape } from "../look/tape.tsx";
import type { Words } from "../look/words.ts";
import { type Asked, Cautions } from "./sign-in-screen.tsx";

export interface LinkSeen {
  readonly purpose: "first manager" | "join" | "new passphrase";
  readonly name?: string | undefined;
  readonly role?: string | undefined;
  readonly signInName?: string | undefined;
}

export interface LinkScreenProps {
  readonly say: Words;
  readonly token: string;
  readonly look: (token: string) => Promise<Asked<LinkSeen>>;
  readonly send: (purpose: LinkSeen["purpose"], body: object) => Promise<Asked<unknown>>;
  readonly onSignedIn: () => void;
}

export function LinkScreen(props: LinkScreenProps) {
  const { say, token } = props;
  const [seen, setSeen] = useState<LinkSeen>();
  const [problem, setProblem] = useState<Trouble>();
  const [form, setForm] = useState({ name: "", signInName: "", passphrase: "", again: "", pin: "" });
  const set = (field: keyof typeof form) => (value: string) => setForm({ ...form, [field]: value });
  useEffect(() => {
    void props.look(token).then((asked) => {
      if ("answer" in asked) setSeen(asked.answer);
      else setProblem(asked.problem);
    });
  }, [token]);
  const isUnequal = form.again !== "" && form.again !== form.passphrase;
  const send = async (event: Event) => {
    event.preventDefault();
    if (!seen || form.again !== form.passphrase) return;
    const { name, signInName, passphrase, pin } = form;
    const asked = await props.send(seen.purpose, {
      token,
      passphrase,
      ...(pin ? { pin } : {}),
      ...(seen.purpose === "new passphrase" ? {} : { signInName }),
      ...(seen.purpose === "first manager" ? { name } : {}),
    });
    if ("answer" in asked) props.onSignedIn();
    else setProblem(asked.problem);
  };
  const verb = seen ? say.linkVerb[seen.purpose] : say.join;
  return (
    <Page tape={<Tape verb={verb} second={say.linkSays} writes={false} menuLabel={say.menu} slim />}>
      <Sheet narrow>
        {seen ? (
          <form class="form" onSubmit={(event) => void send(event)}>
            {seen.name ? <p>{`${seen.name}, ${seen.role ?? ""}`}</p> : null}
            {seen.purpose === "first manager" ? (
              <TextField
                label={say.yourName}
                value={form.name}
                onInput={set("name")}
                required
                autocomplete="name"
              />
            ) : null}
            {seen.purpose === "new passphrase" ? null : (
              <TextField
                label={say.signInName}
                value={form.signInName}
                onInput={set("signInName")}
                autocomplete="username"
                note={say.signInNameNote}
                required
              />
            )}
            <TextField
              label={say.passphrase}
              type="password"
              value={form.passphrase}
              onInput={set("passphrase")}
              autocomplete="new-password"
              note={say.passphraseNote}
              required
            />
            <TextField
              label={say.passphraseAgain}
              type="password"
              value={form.again}
              onInput={set("again")}
              autocomplete="new-password"
              problem={isUnequal ? say.passphraseUnequal : undefined}
              required
            />
            <TextField
              label={say.pin}
              type="password"
              value={form.pin}
              onInput={set("pin")}
              inputmode="numeric"
              note={say.pinNote}
            />
            <Button type="submit" weight="solid">
              {verb}
            </Button>
          </form>
        ) : null}
        {problem ? (
          <Notice kind="fault" head={problem.title} live="assertive">
            {problem.detail}
          </Notice>
        ) : null}
        <Cautions say={say} />
      </Sheet>
    </Page>
  );
}
