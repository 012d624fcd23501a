/** One member: what they have now or had on a day, their sets with what each lacks, and who looked at the record. */
import { useState } from "preact/hooks";
import type { MemberPage } from "../../server/domain/page-views.ts";
import { Button } from "../look/buttons.tsx";
import { DataTable } from "../look/data-table.tsx";
import { TextField } from "../look/fields.tsx";
import { HoldRibbon } from "../look/hold-ribbon.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { Dialog } from "../look/panel.tsx";
import { sentence, type Words } from "../look/words.ts";
import { EVENT_WORDS } from "../look/words-event.ts";
import { RECORD_WORDS, roleWord } from "../look/words-record.ts";
import { sayWhen } from "./bench/describe-piece.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { Awaited } from "./record/awaited.tsx";
import { localMoment, sayLongDay } from "./record/days.ts";
import type { Frame } from "./record/frame.ts";
import { HolderPieces } from "./record/holder-pieces.tsx";
import { KnownThen } from "./record/known-at.tsx";
import { memberLine } from "./record/member-words.ts";
import { Said } from "./record/said.tsx";
import { setWords } from "./record/set-words.ts";
import { isNow, type Then, ThenForm, thenKey } from "./record/then.tsx";
import { namePiece } from "./record/trail-words.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface MemberScreenProps {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  /** Asks for the member now, on a day, as known at a position; `after` is where the page before ended. */
  readonly load: (on?: string, knownAt?: number, after?: string) => Promise<Asked<MemberPage>>;
  /** Says that the member left, with the last day; absent for those who may not. */
  readonly left?: ((on: string) => Promise<Asked<unknown>>) | undefined;
}

export function MemberScreen(props: MemberScreenProps) {
  const [then, setThen] = useState<Then>({});
  const asking = useAsked(() => props.load(then.on, then.knownAt), thenKey(then));
  const { answer } = asking;
  return props.frame({
    verb: words.member,
    second: words.memberSays,
    children: (
      <>
        <Awaited
          asking={asking}
          what={words.theMember}
          say={props.say}
          onNow={isNow(then) ? undefined : () => setThen({})}
        />
        {answer ? <Whole {...props} page={answer} then={then} onThen={setThen} again={asking.again} /> : null}
      </>
    ),
  });
}

type WholeProps = MemberScreenProps & {
  readonly page: MemberPage;
  readonly then: Then;
  readonly onThen: (then: Then) => void;
  readonly again: () => void;
};

function Whole(props: WholeProps) {
  const { page, clock } = props;
  const { member } = page;
  const { day: today } = localMoment(clock.now, clock.timeZone);
  return (
    <Sheet>
      <h2 class="t-title">{member.name ?? words.nameRemoved}</h2>
      <p class="t-lead page-lead">{memberLine(member)}</p>
      <KnownThen shown={page.knownAt} clock={clock} />
      <StandingHolds {...props} />
      <section class="page-section">
        <PiecesHeld {...props} />
        <ThenForm shown={props.then} today={today} onAsk={props.onThen} />
      </section>
      <Sets {...props} />
      <Events {...props} />
      <WhoLooked {...props} />
      <Leaving {...props} today={today} />
    </Sheet>
  );
}

function PiecesHeld(props: WholeProps) {
  const { page, then, say, clock } = props;
  const day = page.on && sayLongDay(page.on);
  return (
    <HolderPieces
      page={page}
      head={(count, isPart) => {
        const pieces = words.firstPieces(count, isPart);
        return day ? words.heldOn(pieces, day) : words.holdsNow(pieces);
      }}
      empty={
        <Notice kind="empty" head={day ? words.heldNothingOn(day) : words.holdsNothing}>
          {day ? "" : words.holdsNothingNext}
        </Notice>
      }
      more={(after) => props.load(then.on, then.knownAt, after)}
      clock={clock}
      say={say}
    />
  );
}

/** Holds on what the member has or has assigned stand above everything else on the page. */
function StandingHolds(props: WholeProps) {
  const { page, clock, say } = props;
  return (
    <>
      {page.holds.map(({ piece, hold }) => (
        <HoldRibbon key={`${piece.id} ${hold.version}`} head={`${say.onHold}:`}>
          <a href={`/pieces/${piece.id}`}>
            <Said text={namePiece(piece)} />
          </a>
          {`. ${say.holdKind[hold.kind]}, since ${sayWhen(hold.placedAt, clock.now, clock.timeZone)}. ${say.holdLiftedBy[hold.kind]}`}
        </HoldRibbon>
      ))}
    </>
  );
}

function Sets(props: WholeProps) {
  const { sets, names, member } = props.page;
  return (
    <section class="page-section">
      <h2 class="t-head">{words.sets}</h2>
      {sets.length === 0 ? (
        <Notice kind="empty" head={words.noSets} live="off" />
      ) : (
        <ListRows
          label={words.sets}
          rows={sets.map((set) => ({
            key: set.set,
            main: sentence(set.set),
            second: setWords(set, member.id, names, props.say).map((line) => (
              <span class="set-line" key={line}>
                <Said text={line} />
              </span>
            )),
          }))}
        />
      )}
    </section>
  );
}

/** Events that list the member: for the member, and for those who are shown names there. */
function Events({ page, clock }: WholeProps) {
  if (page.events.length === 0) return null;
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  return (
    <section class="page-section">
      <h2 class="t-head">{EVENT_WORDS.listedAt}</h2>
      <p>{EVENT_WORDS.listedAtNote}</p>
      <ListRows
        label={EVENT_WORDS.listedAt}
        rows={page.events.map(({ event, from, to, where, incident, set, kinds }) => ({
          key: event.id ?? event.name,
          main: sentence(event.name),
          second: [
            sentence(EVENT_WORDS.span(when(from), when(to))),
            where,
            incident,
            kinds.join(", "),
            set ? EVENT_WORDS.wore(set) : EVENT_WORDS.notSaid,
          ]
            .filter(Boolean)
            .join(" · "),
        }))}
      />
    </section>
  );
}

function WhoLooked(props: WholeProps) {
  const { page, clock, say } = props;
  const { viewings } = page;
  return (
    <section class="page-section no-print">
      <h2 class="t-head">{words.whoLooked}</h2>
      {viewings.length === 0 ? (
        <p>{words.nobodyLooked}</p>
      ) : (
        <DataTable
          caption={words.whoLooked}
          hideCaption
          columns={[
            { key: "who", head: words.lookColumn.who, names: true, cell: ({ by }) => by.name },
            {
              key: "role",
              head: words.lookColumn.role,
              cell: ({ by }) => (by.detail ? roleWord(by.detail, say) : ""),
            },
            {
              key: "when",
              head: words.lookColumn.when,
              cell: ({ at, event }) =>
                [sayWhen(at, clock.now, clock.timeZone), event && EVENT_WORDS.lookedAtEvent(event.name)]
                  .filter(Boolean)
                  .join(", "),
            },
          ]}
          rows={viewings}
          rowKey={({ at, by, event }) => `${at} ${by.id} ${event?.id}`}
        />
      )}
    </section>
  );
}

function Leaving(props: WholeProps & { readonly today: string }) {
  const { left, page, say } = props;
  const [isOpen, setOpen] = useState(false);
  const [day, setDay] = useState(props.today);
  const sending = useSend();
  if (!left || page.member.leftOn) return <WrittenOrNot sending={sending} say={say} />;
  const send = async () => {
    setOpen(false);
    const name = page.member.name ?? words.nameRemoved;
    if (await sending.send(() => left(day), words.leftWritten(name, sayLongDay(day)))) props.again();
  };
  return (
    <section class="page-section no-print">
      <Button weight="quiet" onPress={() => setOpen(true)}>
        {words.memberLeft}
      </Button>
      <WrittenOrNot sending={sending} say={say} />
      <Dialog
        open={isOpen}
        onClose={() => setOpen(false)}
        title={words.memberLeft}
        closeLabel={say.back}
        actions={
          <Button weight="solid" onPress={() => void send()}>
            {words.memberLeft}
          </Button>
        }
      >
        <TextField label={words.leftDay} type="date" value={day} onInput={setDay} note={words.leftNote} />
      </Dialog>
    </section>
  );
}
