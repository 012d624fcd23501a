/** Opens an event, made for a phone at the scene: what happened, who was there, one tap a member for what was worn. */
import { useState } from "preact/hooks";
import type { ContaminantsShown } from "../../../server/domain/contamination/event-views.ts";
import type { MemberBrief } from "../../../server/domain/scan-answer.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { Sheet } from "../../look/page.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load, loadWhole } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import type { Asked } from "../sign-in-screen.tsx";
import { goTo } from "../use-place.ts";
import { type EventDraft, factsOf, newDraft } from "./event-facts.ts";
import { FactsFields } from "./facts-fields.tsx";
import { type Listed, listedCommand, NOBODY, WhoWasThere } from "./who-was-there.tsx";

const words = EVENT_WORDS;

interface Lists {
  readonly kinds: ContaminantsShown["rules"];
  readonly members: readonly MemberBrief[];
}

export function NewEventScreen(props: FormScreenProps) {
  const asking = useAsked(() => lists(props), "new event");
  const { answer } = asking;
  return props.frame({
    verb: words.newEvent,
    second: words.newEventSays,
    children: (
      <>
        <Awaited asking={asking} what={words.theContaminants} say={props.say} />
        {/* The zone comes after the page: the proposed times are made anew with it. */}
        {answer ? <NewEvent key={props.clock.timeZone} {...props} {...answer} /> : null}
      </>
    ),
  });
}

async function lists({ client }: FormScreenProps): Promise<Asked<Lists>> {
  const kinds = await load<ContaminantsShown>(client, "/api/contaminants");
  if ("problem" in kinds) return kinds;
  const members = await loadWhole<MemberBrief>(client, "members");
  if ("problem" in members) return members;
  return { answer: { kinds: kinds.answer.rules, members: members.answer } };
}

function NewEvent(props: FormScreenProps & Lists) {
  const { client, clock, say } = props;
  const [draft, setDraft] = useState<EventDraft>(newDraft(clock.now, clock.timeZone));
  const [listed, setListed] = useState<Listed>(NOBODY);
  const [isTried, setTried] = useState(false);
  const [id] = useState(newId);
  const sendAct = useActs(client);
  const sending = useSend();
  const made = factsOf(draft, clock.timeZone);
  const missing = isTried && "missing" in made ? made.missing : [];
  const send = async () => {
    setTried(true);
    if ("missing" in made) return;
    const note = draft.note.trim() ? { note: draft.note.trim() } : {};
    const body = {
      id,
      event: { ...made.facts, kinds: [...made.facts.kinds] },
      ...listedCommand(listed),
      ...note,
    };
    if (await sending.send(() => sendAct("openEvent", body as never), words.opened(draft.name))) {
      goTo(`/events/${id}`);
    }
  };
  return (
    <Sheet narrow>
      <div class="form">
        <FactsFields draft={draft} kinds={props.kinds} missing={missing} onChange={setDraft} />
        <WhoWasThere
          client={client}
          members={props.members}
          span={"facts" in made ? made.facts : undefined}
          listed={listed}
          onChange={setListed}
        />
        <WrittenOrNot sending={sending} say={say} />
        <Button weight="solid" onPress={() => void send()}>
          {words.open}
        </Button>
      </div>
    </Sheet>
  );
}
