/** Firms that clean, inspect or repair, and parties outside that can have custody: named, changed and closed here. */
import { useState } from "preact/hooks";
import type { OutsideState, ProviderState } from "../../server/domain/register/parties.ts";
import { Button } from "../look/buttons.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { PARTY_WORDS } from "../look/words-parties.ts";
import { load } from "./ask.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { type PartyAsked, PartyDialog } from "./forms/party-dialog.tsx";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { localMoment, sayLongDay } from "./record/days.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = PARTY_WORDS;

interface Parties {
  readonly providers: readonly ProviderState[];
  readonly outside: readonly OutsideState[];
}
export type PartiesScreenProps = FormScreenProps & { readonly onChanged: () => void };

export function PartiesScreen(props: PartiesScreenProps) {
  const asking = useAsked(() => loadParties(props.client), "parties");
  const { answer } = asking;
  return props.frame({
    verb: props.say.parties,
    second: words.says,
    children: (
      <>
        <Awaited asking={asking} what={words.theParties} say={props.say} />
        {answer ? <PartiesPage {...props} parties={answer} again={asking.again} /> : null}
      </>
    ),
  });
}

async function loadParties(client: PartiesScreenProps["client"]): Promise<Asked<Parties>> {
  const [providers, outside] = await Promise.all([
    load<Pick<Parties, "providers">>(client, "/api/providers"),
    load<Pick<Parties, "outside">>(client, "/api/outside"),
  ]);
  if ("problem" in providers) return providers;
  return "problem" in outside ? outside : { answer: { ...providers.answer, ...outside.answer } };
}

type PageProps = PartiesScreenProps & { readonly parties: Parties; readonly again: () => void };

function PartiesPage(props: PageProps) {
  const { parties, me, say, clock } = props;
  const [asked, setAsked] = useState<PartyAsked>();
  const sendAct = useActs(props.client);
  const sending = useSend();
  const manages = me.role === "program manager";
  const mayName = { provider: manages, outside: manages || ["technician", "inspector"].includes(me.role) };
  const send = async (act: Parameters<typeof sending.send>[0], says: string) => {
    setAsked(undefined);
    if (!(await sending.send(act, says))) return;
    props.again();
    props.onChanged();
  };
  const { day: today } = localMoment(clock.now, clock.timeZone);
  const section = (what: PartyAsked["what"], list: readonly (ProviderState | OutsideState)[]) => (
    <section class={what === "provider" ? undefined : "page-section"}>
      <div class="trail-bar">
        <h2 class="t-head">{what === "provider" ? words.providers : words.outside}</h2>
        {mayName[what] ? (
          <Button weight="quiet" onPress={() => setAsked({ what } as PartyAsked)}>
            {words.nameOne[what]}
          </Button>
        ) : null}
      </div>
      <p class="page-lead">{what === "provider" ? words.providersSay : words.outsideSay}</p>
      {list.length === 0 ? <Notice kind="empty" head={words.none[what]} live="off" /> : null}
      <ListRows
        label={what === "provider" ? words.providers : words.outside}
        rows={list.map((party) => ({
          key: party.id,
          main: party.name,
          second: [party.closed && words.closedOnes, secondLine(party, today)].filter(Boolean).join(". "),
          onPress: mayName[what] ? () => setAsked({ what, party } as PartyAsked) : undefined,
        }))}
      />
    </section>
  );
  return (
    <Sheet>
      <WrittenOrNot sending={sending} say={say} />
      {section("provider", parties.providers)}
      {section("outside", parties.outside)}
      <PartyDialog
        asked={asked}
        say={say}
        onSend={(command, body, name) =>
          void send(() => sendAct(command, body as never), words.written(name))
        }
        onCloseParty={
          manages
            ? (command, body, name) => void send(() => sendAct(command, body as never), words.closed(name))
            : undefined
        }
        onShut={() => setAsked(undefined)}
      />
    </Sheet>
  );
}

/** What stands under a name: until when it is verified and by whom, or what sort of party it is. */
function secondLine(party: ProviderState | OutsideState, today: string): string {
  if ("what" in party) return words.whatIs[party.what];
  const { verifiedUntil, verifiedBy } = party;
  if (!verifiedUntil) return words.notVerified;
  const day = sayLongDay(verifiedUntil);
  return verifiedUntil < today ? words.verifiedPast(day) : words.verified(day, verifiedBy);
}
