/** One account: what it is, its one-time link, role, badge, name, and its end. */
import { useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { FactRows } from "../../look/fact-rows.tsx";
import { TextField } from "../../look/fields.tsx";
import { Dialog } from "../../look/panel.tsx";
import { sentence } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { roleWord } from "../../look/words-record.ts";
import { ask } from "../ask.ts";
import { sayStamp } from "../record/days.ts";
import { labelOfId, memberLabels } from "../record/name-lists.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { type BeingDraft, beingOf, beingProblems } from "./account-draft.ts";
import { type AccountSeen, nameOfAccount, sayNumber } from "./account-seen.ts";
import { BeingFields } from "./being-fields.tsx";
import { focusFirstWrong } from "./focus-wrong.ts";
import type { FormScreenProps } from "./form-screen.ts";
import type { Lists } from "./lists.ts";
import { OneTimeLink } from "./one-time-link.tsx";
import type { SendAct } from "./use-acts.ts";

const words = FORM_WORDS;

export type AccountPageProps = Omit<FormScreenProps, "frame"> & {
  readonly lists: Pick<Lists, "members" | "places">;
  readonly account: AccountSeen;
  readonly sendAct: SendAct;
  /** What was written before this page was opened, such as that the account is open. */
  readonly onWritten: () => void;
  readonly onBack: () => void;
};

export function AccountPage(props: AccountPageProps) {
  const { account, say, sendAct, onWritten } = props;
  const sending = useSend();
  const name = nameOfAccount(account);
  const write = async (act: Parameters<typeof sending.send>[0], says: string) => {
    if (await sending.send(act, says)) onWritten();
  };
  const facts = factsOf(props);
  return (
    <>
      <Button weight="quiet" onPress={props.onBack}>
        {words.back}
      </Button>
      <h2 class="t-title form-head">{name}</h2>
      <FactRows facts={facts} />
      <WrittenOrNot sending={sending} say={say} />
      {account.closed ? (
        <section class="page-section">
          <p>{words.isClosed}</p>
          <Button
            onPress={() => {
              const command = beingOf(draftOf(account), account.id);
              void write(() => sendAct("openAccount", command), words.accountOpened(name));
            }}
          >
            {words.reopen}
          </Button>
        </section>
      ) : (
        <>
          <LinkOf {...props} />
          <RoleOf
            {...props}
            onRole={(draft) =>
              write(
                () => sendAct("giveRole", beingOf(draft, account.id)),
                words.roleGiven(name, roleWord(draft.role, say)),
              )
            }
          />
          <NameOf
            {...props}
            onName={(typed) =>
              write(
                () =>
                  ask(
                    props.client.put("/api/accounts/{account}/name", {
                      ...{ params: { account: account.id }, body: { name: typed } },
                    }),
                  ),
                words.nameCorrected,
              )
            }
          />
          <section class="page-section button-row">
            <Button
              onPress={() =>
                void write(() => sendAct("giveBadge", { account: account.id }), words.badgeGiven)
              }
            >
              {account.badge ? words.giveNewBadge : words.giveBadge}
            </Button>
            <CloseOf
              {...props}
              onClose={() =>
                write(() => sendAct("closeAccount", { account: account.id }), words.accountClosed(name))
              }
            />
          </section>
        </>
      )}
    </>
  );
}

function factsOf({ account, lists, say }: AccountPageProps) {
  const member = account.member && labelOfId(account.member, memberLabels(lists.members));
  const station = lists.places.find(({ id }) => id === account.station)?.name;
  const signsIn = account.signInName ? words.signInNameOf(account.signInName) : words.notJoined;
  return [
    { label: words.role, main: sentence(roleWord(account.role, say)), rest: signsIn },
    ...(member ? [{ label: words.memberOf, rest: member }] : []),
    ...(station ? [{ label: words.station, rest: station }] : []),
    { label: words.badge, rest: account.badge ? sayNumber(account.badge) : words.noBadge },
    { label: say.pin, rest: account.hasPin ? words.hasPin : words.noPin },
  ];
}

function draftOf({ role, member = "", station = "" }: AccountSeen): BeingDraft {
  return { role, member, station };
}

function LinkOf(props: AccountPageProps) {
  const { account, client, clock, say } = props;
  const [link, setLink] = useState<{ readonly path: string; readonly expiresAt: string }>();
  const sending = useSend();
  const purpose = account.hasPassphrase ? ("new passphrase" as const) : ("join" as const);
  const make = () =>
    sending.send(async () => {
      const parts = { params: { account: account.id }, body: { purpose } };
      const asked = await ask(client.post("/api/accounts/{account}/link", parts));
      if ("answer" in asked) setLink(asked.answer);
      return asked;
    }, "");
  return (
    <section class="page-section" aria-label={words.linkHead}>
      <Button onPress={() => void make()}>{account.hasPassphrase ? words.linkAgain : words.link}</Button>
      <WrittenOrNot sending={sending} say={say} />
      {link ? (
        <OneTimeLink
          // A new link is a new thing to copy.
          key={link.path}
          address={`${location.origin}${link.path}`}
          until={sayStamp(Date.parse(link.expiresAt), clock.timeZone)}
        />
      ) : null}
    </section>
  );
}

function RoleOf(props: AccountPageProps & { readonly onRole: (draft: BeingDraft) => Promise<void> }) {
  const [draft, setDraft] = useState<BeingDraft>(() => draftOf(props.account));
  const [isTried, setTried] = useState(false);
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (Object.keys(beingProblems(draft)).length === 0) await props.onRole(draft);
  };
  return (
    <form class="form page-section" noValidate onSubmit={(event) => void send(event)}>
      <BeingFields
        say={props.say}
        lists={props.lists}
        draft={draft}
        problems={isTried ? beingProblems(draft) : {}}
        set={(changes) => setDraft({ ...draft, ...changes })}
      />
      <div class="button-row">
        <Button type="submit">{words.giveRole}</Button>
      </div>
    </form>
  );
}

function NameOf(props: AccountPageProps & { readonly onName: (name: string) => Promise<void> }) {
  const [name, setName] = useState(props.account.name ?? "");
  const [isTried, setTried] = useState(false);
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (name.trim() !== "") await props.onName(name.trim());
  };
  return (
    <form class="field-row page-section" noValidate onSubmit={(event) => void send(event)}>
      <TextField
        label={words.accountName}
        value={name}
        onInput={setName}
        problem={isTried && name.trim() === "" ? words.accountNameNeeded : undefined}
      />
      <Button type="submit">{words.correctName}</Button>
    </form>
  );
}

function CloseOf(props: AccountPageProps & { readonly onClose: () => Promise<void> }) {
  const [isAsked, setAsked] = useState(false);
  return (
    <>
      <Button weight="quiet" onPress={() => setAsked(true)}>
        {words.closeAccount}
      </Button>
      <Dialog
        open={isAsked}
        onClose={() => setAsked(false)}
        title={words.closeAsk(nameOfAccount(props.account))}
        closeLabel={props.say.close}
        actions={
          <Button
            onPress={() => {
              setAsked(false);
              void props.onClose();
            }}
          >
            {words.closeAccount}
          </Button>
        }
      >
        <p>{words.closeSays}</p>
      </Dialog>
    </>
  );
}
