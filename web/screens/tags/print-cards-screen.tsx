/** Prints cards of places, members, badges and actions. Places and members that have no number get one. */
import { useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import { newId } from "../../api/uuid-v7.ts";
import type { PrintOptionsOnWire } from "../../api/wire.ts";
import { Confirm } from "../../look/buttons.tsx";
import { CheckField, SelectField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { ask, loadList } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { NotForYou } from "../forms/not-for-you.tsx";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import type { Asked } from "../sign-in-screen.tsx";
import { type CardHolder, ChooseHolders, type Picked } from "./choose-holders.tsx";
import { DrawnRun } from "./drawn-run.tsx";
import { EarlierRuns } from "./earlier-runs.tsx";
import { mayPrint } from "./print-tags-screen.tsx";

const words = PRINT_WORDS;

interface Loaded {
  readonly options: PrintOptionsOnWire;
  readonly places: readonly CardHolder[];
  readonly members: readonly CardHolder[];
  readonly badges: readonly CardHolder[];
}

export function PrintCardsScreen(props: FormScreenProps) {
  const asking = useAsked(() => load(props), "cards");
  const { answer } = asking;
  const [run, setRun] = useState(() => new URLSearchParams(location.search).get("run") ?? undefined);
  const open = (id: string | undefined) => {
    history.replaceState(null, "", id ? `/cards?run=${id}` : "/cards");
    setRun(id);
  };
  return props.frame({
    verb: props.say.printCards,
    second: words.cardsSay,
    children: !mayPrint(props) ? (
      <NotForYou />
    ) : (
      <>
        <Awaited asking={asking} what={words.theOptions} say={props.say} />
        {answer && run ? (
          <DrawnRun key={run} {...props} options={answer.options} run={run} onOpen={open} />
        ) : answer ? (
          <ChooseCards {...props} {...answer} onRun={open} />
        ) : null}
      </>
    ),
  });
}

interface PlaceRow {
  readonly id: string;
  readonly name: string;
  readonly closed?: boolean;
}
interface MemberRow {
  readonly id: string;
  readonly number: string;
  readonly name?: string;
  readonly leftOn?: string;
}

async function load({ client, me }: FormScreenProps): Promise<Asked<Loaded>> {
  const [options, places, members, accounts] = await Promise.all([
    ask(client.get("/api/print-options")),
    loadList<PlaceRow>(client, "places"),
    loadList<MemberRow>(client, "members"),
    me.role === "program manager" ? ask(client.get("/api/accounts")) : undefined,
  ]);
  if ("problem" in options) return options;
  const open = accounts && "answer" in accounts ? accounts.answer.accounts : [];
  return {
    answer: {
      options: options.answer,
      places: places.filter(({ closed }) => !closed).map(({ id, name }) => ({ id, name })),
      members: members
        .filter(({ leftOn }) => !leftOn)
        .map(({ id, number, name }) => ({ id, name: name ? `${number} ${name}` : number })),
      badges: open
        .filter(({ badge, closed }) => badge && !closed)
        .map(({ id, name, role }) => ({ id, name: name ? `${name}, ${role}` : role })),
    },
  };
}

const NOTHING: Picked = { how: "none", ids: [] };

function ChooseCards(props: FormScreenProps & Loaded & { readonly onRun: (run: string) => void }) {
  const { client, options, onRun } = props;
  const [actions, setActions] = useState(false);
  const [places, setPlaces] = useState(NOTHING);
  const [members, setMembers] = useState(NOTHING);
  const [badges, setBadges] = useState(NOTHING);
  const [stock, setStock] = useState<PrintOptionsOnWire["cardStocks"][number]["name"]>("A4");
  const [dpi, setDpi] = useState<PrintOptionsOnWire["dpis"][number]>("600");
  const [wrong, setWrong] = useState<Trouble>();
  const chosen = places.ids.length + members.ids.length + badges.ids.length;
  const isNothing = chosen === 0 && !actions;
  const draw = async () => {
    const command = {
      ...{ run: newId<string>(), stock, dpi, actions },
      ...{ places: [...places.ids], members: [...members.ids], accounts: [...badges.ids] },
    };
    const answer = await client.post("/api/card-runs", { body: client.newOrder(command) });
    if (answer.ok) onRun(answer.answer.about);
    else setWrong(answer.problem);
  };
  return (
    <Sheet>
      <div class="form form-wide">
        <div>
          <CheckField label={words.actions} checked={actions} onChange={setActions} />
          <p class="t-second">{words.actionsSay}</p>
        </div>
        <ChooseHolders
          name="places"
          legend={words.places}
          all={props.places}
          picked={places}
          onPick={setPlaces}
        />
        <ChooseHolders
          name="members"
          legend={words.members}
          note={words.membersNote}
          all={props.members}
          picked={members}
          onPick={setMembers}
        />
        {props.me.role === "program manager" ? (
          <ChooseHolders
            name="badges"
            legend={words.badges}
            note={words.badgesNote}
            all={props.badges}
            picked={badges}
            onPick={setBadges}
          />
        ) : null}
        <div class="column-grid">
          <SelectField
            label={words.stock}
            value={stock}
            options={options.cardStocks.map(({ name }) => ({ value: name, label: words.cardStocks[name] }))}
            onChange={(value) => setStock(value as typeof stock)}
          />
          <SelectField
            label={words.dpi}
            value={dpi}
            options={options.dpis.map((each) => ({ value: each, label: words.dpiOf(each) }))}
            onChange={(value) => setDpi(value as typeof dpi)}
          />
        </div>
        {wrong ? (
          <Notice kind="fault" head={wrong.title} live="assertive">
            {wrong.detail}
          </Notice>
        ) : null}
        <div class="action-row">
          <Confirm
            label={isNothing ? words.drawNoCards : words.drawCards(chosen, actions)}
            blocked={isNothing}
            onPress={() => void draw()}
          />
        </div>
      </div>
      <EarlierRuns {...props} onOpen={onRun} what="cards" />
    </Sheet>
  );
}
