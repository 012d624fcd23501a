/** One event: what happened, who and what was there, where each piece is now, and what is still asked. */
import { useState } from "preact/hooks";
import type { EventPage } from "../../../server/domain/contamination/event-views.ts";
import type { MemberBrief } from "../../../server/domain/scan-answer.ts";
import { Button } from "../../look/buttons.tsx";
import { FactRows } from "../../look/fact-rows.tsx";
import { TextField } from "../../look/fields.tsx";
import { HoldRibbon } from "../../look/hold-ribbon.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { sentence } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load, loadWhole } from "../ask.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { type Sending, useSend, WrittenOrNot } from "../record/use-send.tsx";
import { draftOf, type EventDraft, factsOf } from "./event-facts.ts";
import { EventPieces } from "./event-pieces.tsx";
import { FactsFields } from "./facts-fields.tsx";
import { findThere } from "./find-there.ts";
import { RuleTable } from "./rule-table.tsx";
import { type Listed, listedCommand, NOBODY, WhoWasThere } from "./who-was-there.tsx";

const words = EVENT_WORDS;

export type EventScreenProps = FormScreenProps & { readonly event: string };

export function EventScreen(props: EventScreenProps) {
  const { client, event } = props;
  const asking = useAsked(() => load<EventPage>(client, "/api/events/{event}", { event }), event);
  const { answer } = asking;
  return props.frame({
    verb: answer ? sentence(answer.event.name) : words.events,
    second: words.eventSays,
    children: (
      <>
        <Awaited asking={asking} what={words.theEvent} say={props.say} />
        {answer ? <Whole {...props} page={answer} again={asking.again} /> : null}
      </>
    ),
  });
}

interface Correction {
  readonly members?: readonly { readonly member: string; readonly set?: string }[];
  readonly pieces?: readonly { readonly piece: string; readonly evidence: string }[];
  readonly notMembers?: readonly string[];
  readonly notPieces?: readonly string[];
}

type WholeProps = EventScreenProps & { readonly page: EventPage; readonly again: () => void };

function Whole(props: WholeProps) {
  const { page, client, clock, say, me } = props;
  const { event } = page;
  const sendAct = useActs(client);
  const sending = useSend();
  const mayCorrect = me.role !== "reader";
  const correct = async (correction: Correction) => {
    const nothing = { members: [], pieces: [], notMembers: [], notPieces: [] };
    const body = { event: event.id, ...nothing, ...correction };
    if (await sending.send(() => sendAct("correctEvent", body as never), words.corrected)) props.again();
  };
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  return (
    <Sheet>
      {event.held > 0 ? (
        <HoldRibbon head={`${words.onHold}:`} page>
          {words.onHoldSays(event.held, event.pieces, event.name)}
        </HoldRibbon>
      ) : null}
      <FactRows
        facts={[
          { label: words.when, main: sentence(words.span(when(event.from), when(event.to))) },
          ...(event.where || event.place
            ? [{ label: words.where, main: [event.where, event.place?.name].filter(Boolean).join(", ") }]
            : []),
          ...(event.incident ? [{ label: words.incident, rest: event.incident }] : []),
          { label: words.kinds, main: event.kinds.map(({ name }) => name).join(", ") },
          ...(page.note ? [{ label: words.note, rest: page.note }] : []),
        ]}
      />
      <div class="button-row no-print">
        <a class="button" href={`/trace?event=${event.id}`}>
          {words.trace}
        </a>
      </div>
      <WrittenOrNot sending={sending} say={say} />
      <section class="page-section">
        <h2 class="t-head">{words.pieces}</h2>
        {page.pieces.length === 0 ? (
          <Notice kind="empty" head={words.noPieces}>
            {words.noPiecesNext}
          </Notice>
        ) : (
          <EventPieces
            page={page}
            say={say}
            onNotThere={mayCorrect ? (piece) => void correct({ notPieces: [piece] }) : undefined}
          />
        )}
      </section>
      <Members {...props} correct={mayCorrect ? correct : undefined} />
      {mayCorrect ? <Correcting {...props} correct={correct} sending={sending} /> : null}
      <section class="page-section">
        <h2 class="t-head">{words.asked}</h2>
        {page.rules.map((rule) => (
          <RuleTable key={rule.code} rule={rule} />
        ))}
      </section>
      <section class="cautions">
        <h2 class="t-head">{words.cautions}</h2>
        <ul>
          {words.caution.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
    </Sheet>
  );
}

function Members(
  props: WholeProps & { readonly correct: ((correction: Correction) => Promise<void>) | undefined },
) {
  const { page, correct } = props;
  return (
    <section class="page-section">
      <h2 class="t-head">{words.members}</h2>
      <p>{page.members.every(({ isNamed }) => isNamed) ? words.membersNote : words.numbersOnly}</p>
      <ListRows
        label={words.members}
        rows={page.members.map((member) => ({
          key: member.id,
          main: member.name,
          second: [member.station?.name, member.set ? words.wore(member.set) : words.notSaid]
            .filter(Boolean)
            .join(" · "),
          end: correct ? (
            <Button weight="quiet" onPress={() => void correct({ notMembers: [member.id] })}>
              {words.takeOff}
              <span class="for-ears">{` ${member.name}`}</span>
            </Button>
          ) : undefined,
        }))}
      />
    </section>
  );
}

/** Scanning what was there, adding members, and changing the event itself. */
function Correcting(
  props: WholeProps & {
    readonly correct: (correction: Correction) => Promise<void>;
    readonly sending: Sending;
  },
) {
  const { page, client, clock, correct, sending } = props;
  const { event } = page;
  const [text, setText] = useState("");
  const [told, setTold] = useState<string>();
  const [listed, setListed] = useState<Listed>(NOBODY);
  const [open, setOpen] = useState<"members" | "facts">();
  const members = useAsked(() => loadWhole<MemberBrief>(client, "members"), "members of the list");
  const take = async () => {
    const typed = text.trim();
    if (typed === "") return;
    setText("");
    const there = await findThere(client, members.answer ?? [], typed);
    if (there.kind === "piece") {
      setTold(undefined);
      await correct({ pieces: [{ piece: there.id, evidence: "scanned" }] });
    } else if (there.kind === "member") await correct({ members: [{ member: there.id }] });
    else setTold(there.kind === "not yours" ? words.notYours : words.notFound(typed));
  };
  const addThem = async () => {
    const { members: whom, pieces } = listedCommand(listed);
    await correct({ members: whom, pieces });
    setListed(NOBODY);
  };
  return (
    <section class="page-section no-print">
      <h2 class="t-head">{words.scanThere}</h2>
      <form
        class="form"
        onSubmit={(submitted) => {
          submitted.preventDefault();
          void take();
        }}
      >
        <TextField label={words.scanThem} value={text} onInput={setText} mono scans="send" />
        <Button type="submit">{words.add}</Button>
      </form>
      {told ? <Notice kind="unknown" head={told} live="assertive" /> : null}
      <div class="button-row">
        <Button
          expanded={open === "members"}
          controls="event-members"
          onPress={() => setOpen(open === "members" ? undefined : "members")}
        >
          {words.sayWorn}
        </Button>
        <Button
          expanded={open === "facts"}
          controls="event-facts"
          onPress={() => setOpen(open === "facts" ? undefined : "facts")}
        >
          {words.change}
        </Button>
      </div>
      <div id="event-members" hidden={open !== "members"} class="page-form">
        {open === "members" ? (
          <>
            <WhoWasThere
              client={client}
              members={members.answer ?? []}
              span={event}
              listed={listed === NOBODY ? { ...NOBODY, members: page.members.map(({ id }) => id) } : listed}
              onChange={setListed}
            />
            <Button weight="solid" onPress={() => void addThem()}>
              {words.add}
            </Button>
          </>
        ) : null}
      </div>
      <div id="event-facts" hidden={open !== "facts"} class="page-form">
        {open === "facts" ? <ChangeFacts {...props} sending={sending} timeZone={clock.timeZone} /> : null}
      </div>
    </section>
  );
}

function ChangeFacts(props: WholeProps & { readonly sending: Sending; readonly timeZone: string }) {
  const { page, client, sending, timeZone } = props;
  const [draft, setDraft] = useState<EventDraft>(draftOf(page.event, timeZone));
  const [isTried, setTried] = useState(false);
  const sendAct = useActs(client);
  const kinds = useAsked(
    () => load<{ rules: readonly { code: string; name: string }[] }>(client, "/api/contaminants"),
    "kinds",
  );
  const made = factsOf(draft, timeZone);
  const send = async () => {
    setTried(true);
    if ("missing" in made) return;
    const place = page.event.place ? { place: page.event.place.id } : {};
    const note = draft.note.trim() ? { note: draft.note.trim() } : {};
    const body = { id: page.event.id, event: { ...made.facts, ...place }, ...note };
    if (await sending.send(() => sendAct("changeEvent", body as never), words.changed)) props.again();
  };
  return (
    <div class="form">
      <FactsFields
        draft={draft}
        kinds={kinds.answer?.rules ?? page.event.kinds}
        missing={isTried && "missing" in made ? made.missing : []}
        onChange={setDraft}
      />
      <Button weight="solid" onPress={() => void send()}>
        {words.change}
      </Button>
    </div>
  );
}
