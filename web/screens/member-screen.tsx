/** One member: what they have now or had on a day, their sets with what each lacks, and who looked at the record. */
import { useState } from "preact/hooks";
import { Button } from "../look/buttons.tsx";
import { DataTable } from "../look/data-table.tsx";
import { TextField } from "../look/fields.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { Dialog } from "../look/panel.tsx";
import type { Words } from "../look/words.ts";
import { RECORD_WORDS, roleWord } from "../look/words-record.ts";
import { sayWhen } from "./bench/describe-piece.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { memberLine } from "./members-screen.tsx";
import { Awaited } from "./record/awaited.tsx";
import { localMoment, sayLongDay } from "./record/days.ts";
import type { Frame } from "./record/frame.ts";
import { OnDay } from "./record/on-day.tsx";
import { PieceTable } from "./record/piece-table.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { MemberPage, SetView } from "./record/views.ts";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface MemberScreenProps {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  readonly load: (on?: string) => Promise<Asked<MemberPage>>;
  /** Says that the member left, with the last day; absent for those who may not. */
  readonly left?: ((on: string) => Promise<Asked<unknown>>) | undefined;
}

export function MemberScreen(props: MemberScreenProps) {
  const [day, setDay] = useState<string>();
  const asking = useAsked(() => props.load(day), day ?? "now");
  const { answer } = asking;
  return props.frame({
    verb: words.member,
    second: words.memberSays,
    children: (
      <>
        <Awaited asking={asking} what={words.theMember} say={props.say} />
        {answer ? <Whole {...props} page={answer} day={day} onDay={setDay} again={asking.again} /> : null}
      </>
    ),
  });
}

type WholeProps = MemberScreenProps & {
  readonly page: MemberPage;
  readonly day: string | undefined;
  readonly onDay: (day: string | undefined) => void;
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
      <section class="page-section">
        <PiecesHeld {...props} />
        <OnDay shown={props.day} today={today} onAsk={props.onDay} />
      </section>
      <Sets {...props} />
      <WhoLooked {...props} />
      <Leaving {...props} today={today} />
    </Sheet>
  );
}

function PiecesHeld(props: WholeProps) {
  const { page, say, clock } = props;
  const day = page.on && sayLongDay(page.on);
  const count = page.pieces.length;
  const head = day ? words.heldOn(count, day) : words.holdsNow(count);
  if (count === 0) {
    return (
      <Notice kind="empty" head={day ? words.heldNothingOn(day) : words.holdsNothing}>
        {day ? "" : words.holdsNothingNext}
      </Notice>
    );
  }
  return (
    <>
      <h2 class="t-head" aria-live="polite">
        {head}
      </h2>
      <PieceTable
        caption={head}
        rows={page.pieces}
        columns={["tag", "label", "belongsTo", "since", "state"]}
        clock={clock}
        say={say}
      />
    </>
  );
}

function Sets(props: WholeProps) {
  const { sets } = props.page;
  return (
    <section class="page-section">
      <h2 class="t-head">{words.sets}</h2>
      {sets.length === 0 ? (
        <Notice kind="empty" head={words.noSets} live="off" />
      ) : (
        <ListRows
          label={words.sets}
          rows={sets.map((set) => ({ key: set.name, main: set.name, second: setSays(set) }))}
        />
      )}
    </section>
  );
}

function setSays(set: SetView): string {
  const parts = [
    words.setPieces(set.count),
    set.elsewhere > 0 && words.setElsewhere(set.elsewhere),
    set.lacks.length > 0 ? words.setLacks(set.lacks) : words.setComplete,
  ];
  return parts.filter(Boolean).join(" ");
}

function WhoLooked(props: WholeProps) {
  const { page, clock, say } = props;
  const { looks } = page;
  if (!looks) return null;
  return (
    <section class="page-section no-print">
      <h2 class="t-head">{words.whoLooked}</h2>
      {looks.length === 0 ? (
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
              cell: ({ at }) => sayWhen(at, clock.now, clock.timeZone),
            },
          ]}
          rows={looks}
          rowKey={({ at, by }) => `${at} ${by.id}`}
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
