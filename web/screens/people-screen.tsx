/** Who may come in, and as what: accounts are opened, given roles and badges, and closed here. */
import { useState } from "preact/hooks";
import { newId } from "../api/uuid-v7.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { sentence, type Words } from "../look/words.ts";
import { FORM_WORDS } from "../look/words-forms.ts";
import { roleWord } from "../look/words-record.ts";
import { ask } from "./ask.ts";
import { type AccountDraft, accountOf } from "./forms/account-draft.ts";
import { AccountForm } from "./forms/account-form.tsx";
import { AccountPage } from "./forms/account-page.tsx";
import { type AccountSeen, nameOfAccount } from "./forms/account-seen.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { type Lists, loadLists } from "./forms/lists.ts";
import { NotForYou } from "./forms/not-for-you.tsx";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = FORM_WORDS;

interface Loaded {
  readonly lists: Lists;
  readonly accounts: readonly AccountSeen[];
}

export function PeopleScreen(props: FormScreenProps) {
  const manages = props.me.role === "program manager";
  return props.frame({
    verb: props.say.people,
    second: words.peopleSay,
    children: manages ? <People {...props} /> : <NotForYou />,
  });
}

function People(props: FormScreenProps) {
  const asking = useAsked(() => load(props), "accounts");
  const { answer } = asking;
  return (
    <>
      <Awaited asking={asking} what={words.theAccounts} say={props.say} />
      {answer ? <PeoplePage {...props} {...answer} again={asking.again} /> : null}
    </>
  );
}

async function load({ client }: FormScreenProps): Promise<Asked<Loaded>> {
  const [lists, seen] = await Promise.all([loadLists(client), ask(client.get("/api/accounts"))]);
  if ("problem" in lists) return lists;
  if ("problem" in seen) return seen;
  return { answer: { lists: lists.answer, accounts: seen.answer.accounts } };
}

type PageProps = FormScreenProps & Loaded & { readonly again: () => void };

function PeoplePage(props: PageProps) {
  const { say, accounts, lists, again } = props;
  const sendAct = useActs(props.client);
  const sending = useSend();
  const [isOpening, setOpening] = useState(false);
  const [id, setId] = useState(() => newId<string>());
  const [chosen, setChosen] = useState<string>();
  const [text, setText] = useState("");
  const open = async (draft: AccountDraft) => {
    const name = draft.name.trim() || (lists.members.find((one) => one.id === draft.member)?.name ?? "");
    const command = accountOf(draft, id);
    if (!(await sending.send(() => sendAct("openAccount", command), words.accountOpened(name)))) return;
    setOpening(false);
    setChosen(id);
    setId(newId<string>());
    again();
  };
  const account = accounts.find((one) => one.id === chosen);
  if (account) {
    return (
      <Sheet>
        <WrittenOrNot sending={sending} say={say} />
        <AccountPage
          key={account.id}
          {...props}
          {...{ account, sendAct }}
          onWritten={again}
          onBack={() => setChosen(undefined)}
        />
      </Sheet>
    );
  }
  const wanted = text.trim().toLowerCase();
  const found = accounts.filter((one) => nameOfAccount(one).toLowerCase().includes(wanted));
  return (
    <Sheet>
      <div class="trail-bar page-bar">
        <TextField label={words.findPerson} value={text} onInput={setText} />
        <Button expanded={isOpening} controls="open-account" onPress={() => setOpening(!isOpening)}>
          {words.openAccount}
        </Button>
      </div>
      <section id="open-account" hidden={!isOpening} aria-label={words.openAccount} class="page-form">
        {isOpening ? <AccountForm {...{ say, lists }} onOpen={open} /> : null}
      </section>
      <WrittenOrNot sending={sending} say={say} />
      {found.length === 0 ? <Notice kind="empty" head={words.noSuchPerson} /> : null}
      <section class="page-section">
        <ListRows label={say.people} rows={found.map((one) => accountRow(one, say, setChosen))} />
      </section>
    </Sheet>
  );
}

function accountRow(account: AccountSeen, say: Words, onChosen: (id: string) => void) {
  const { signInName, closed } = account;
  return {
    key: account.id,
    main: nameOfAccount(account),
    second: [
      sentence(roleWord(account.role, say)),
      signInName ? words.signInNameOf(signInName) : words.notJoined,
    ].join(", "),
    ...(closed ? { end: words.closed } : {}),
    onPress: () => onChosen(account.id),
  };
}
