/** The members of the department; one is added here by number and name. */
import { useState } from "preact/hooks";
import type { PlaceId } from "../../server/domain/ids.ts";
import type { MemberBrief, PlaceBrief } from "../../server/domain/scan-answer.ts";
import { Button } from "../look/buttons.tsx";
import { SelectField, TextField } from "../look/fields.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import type { Words } from "../look/words.ts";
import { RECORD_WORDS } from "../look/words-record.ts";
import { Awaited } from "./record/awaited.tsx";
import type { Frame } from "./record/frame.ts";
import { memberLine, membersBy } from "./record/member-words.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

/** More rows than this are not read by anybody; the field above narrows them. */
const MOST_ROWS = 200;

export interface MemberDraft {
  readonly number: string;
  readonly name: string;
  readonly station?: PlaceId;
  readonly shift?: string;
}

export interface MembersScreenProps {
  readonly say: Words;
  readonly frame: Frame;
  readonly load: () => Promise<Asked<readonly MemberBrief[]>>;
  readonly places: readonly PlaceBrief[];
  /** Lists a new member; absent for those who may not. */
  readonly addMember?: ((member: MemberDraft) => Promise<Asked<unknown>>) | undefined;
}

export function MembersScreen(props: MembersScreenProps) {
  const asking = useAsked(props.load, "members");
  const { answer } = asking;
  return props.frame({
    verb: props.say.members,
    second: words.membersSays,
    children: (
      <>
        <Awaited asking={asking} what={words.theMembers} say={props.say} />
        {answer ? <MembersPage {...props} members={answer} again={asking.again} /> : null}
      </>
    ),
  });
}

type PageProps = MembersScreenProps & {
  readonly members: readonly MemberBrief[];
  readonly again: () => void;
};

function MembersPage(props: PageProps) {
  const { members, addMember, say } = props;
  const [isAdding, setAdding] = useState(false);
  const [text, setText] = useState("");
  const sending = useSend();
  const found = membersBy(members, text);
  return (
    <Sheet>
      <div class="trail-bar page-bar">
        <TextField label={say.findMember} value={text} onInput={setText} />
        {addMember ? (
          <Button expanded={isAdding} controls="add-member" onPress={() => setAdding(!isAdding)}>
            {words.addMember}
          </Button>
        ) : null}
      </div>
      <section id="add-member" hidden={!isAdding} aria-label={words.addMember} class="page-form">
        {isAdding && addMember ? (
          <MemberForm
            {...props}
            onSend={async (member) => {
              const isWritten = await sending.send(() => addMember(member), words.memberWritten(member.name));
              if (isWritten) props.again();
              return isWritten;
            }}
          />
        ) : null}
      </section>
      <WrittenOrNot sending={sending} say={say} />
      <MemberRows members={found} say={say} />
      {found.length > MOST_ROWS ? <p class="t-second">{words.firstOf(MOST_ROWS, found.length)}</p> : null}
      {found.length === 0 ? (
        <Notice kind="empty" head={members.length === 0 ? words.noMembers : words.noSuchMember}>
          {members.length === 0 ? words.noMembersNext : words.noSuchNext}
        </Notice>
      ) : null}
    </Sheet>
  );
}

function MemberRows(props: { readonly members: readonly MemberBrief[]; readonly say: Words }) {
  if (props.members.length === 0) return null;
  return (
    <section class="page-section">
      <ListRows
        label={props.say.members}
        rows={props.members.slice(0, MOST_ROWS).map((member) => ({
          key: member.id,
          href: `/members/${member.id}`,
          main: member.name ?? words.nameRemoved,
          second: memberLine(member),
        }))}
      />
    </section>
  );
}

const EMPTY = { number: "", name: "", station: "", shift: "" };

function MemberForm(
  props: MembersScreenProps & { readonly onSend: (member: MemberDraft) => Promise<boolean> },
) {
  const [draft, setDraft] = useState(EMPTY);
  const [isTried, setTried] = useState(false);
  const set = (field: keyof typeof EMPTY) => (value: string) => setDraft({ ...draft, [field]: value });
  const lacks = (field: "number" | "name") =>
    isTried && draft[field].trim() === "" ? words.memberNeeds : undefined;
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    const [number, name, shift] = [draft.number.trim(), draft.name.trim(), draft.shift.trim()];
    if (number === "" || name === "") return;
    const member: MemberDraft = {
      ...{ number, name },
      ...(draft.station ? { station: draft.station as PlaceId } : {}),
      ...(shift ? { shift } : {}),
    };
    if (!(await props.onSend(member))) return;
    setTried(false);
    setDraft({ ...EMPTY, station: draft.station, shift: draft.shift });
  };
  const stations = props.places.filter(({ what, closed }) => what === "station" && !closed);
  return (
    <form class="form" onSubmit={(event) => void send(event)}>
      <TextField
        label={words.memberNumber}
        value={draft.number}
        onInput={set("number")}
        note={words.memberNumberNote}
        problem={lacks("number")}
      />
      <TextField label={words.memberName} value={draft.name} onInput={set("name")} problem={lacks("name")} />
      <SelectField
        label={words.station}
        value={draft.station}
        options={[
          { value: "", label: words.noStation },
          ...stations.map(({ id, name }) => ({ value: id as string, label: name })),
        ]}
        onChange={set("station")}
      />
      <TextField label={words.shift} value={draft.shift} onInput={set("shift")} />
      <Button type="submit" weight="solid">
        {words.addMember}
      </Button>
    </form>
  );
}
