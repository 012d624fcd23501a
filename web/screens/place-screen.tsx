/** One place: what it is, what lies there now or lay there on a day, and how it is changed or closed. */
import { useState } from "preact/hooks";
import type { PlaceFacts } from "../../server/domain/register/place.ts";
import type { PlaceBrief } from "../../server/domain/scan-answer.ts";
import { Button } from "../look/buttons.tsx";
import { type Fact, FactRows } from "../look/fact-rows.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { Dialog } from "../look/panel.tsx";
import { TagNumber } from "../look/tag-figure.tsx";
import type { Words } from "../look/words.ts";
import { RECORD_WORDS } from "../look/words-record.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { Awaited } from "./record/awaited.tsx";
import { localMoment, sayLongDay } from "./record/days.ts";
import type { Frame } from "./record/frame.ts";
import { OnDay } from "./record/on-day.tsx";
import { PieceTable } from "./record/piece-table.tsx";
import { PlaceForm } from "./record/place-form.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { PlacePage } from "./record/views.ts";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface PlaceScreenProps {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  readonly load: (on?: string) => Promise<Asked<PlacePage>>;
  /** Every place, for what this one can be within. */
  readonly places: readonly PlaceBrief[];
  /** Describes the place anew; absent for those who may not. */
  readonly describe?: ((facts: PlaceFacts) => Promise<Asked<unknown>>) | undefined;
  readonly close?: (() => Promise<Asked<unknown>>) | undefined;
}

export function PlaceScreen(props: PlaceScreenProps) {
  const [day, setDay] = useState<string>();
  const asking = useAsked(() => props.load(day), day ?? "now");
  const { answer } = asking;
  return props.frame({
    verb: words.place,
    second: words.placeSays,
    children: (
      <>
        <Awaited asking={asking} what={words.thePlace} say={props.say} />
        {answer ? <Whole {...props} page={answer} day={day} onDay={setDay} again={asking.again} /> : null}
      </>
    ),
  });
}

type WholeProps = PlaceScreenProps & {
  readonly page: PlacePage;
  readonly day: string | undefined;
  readonly onDay: (day: string | undefined) => void;
  readonly again: () => void;
};

function Whole(props: WholeProps) {
  const { page, places, clock } = props;
  const { place } = page;
  const inside = places.filter(({ within, closed }) => within?.id === place.id && !closed);
  const { day: today } = localMoment(clock.now, clock.timeZone);
  return (
    <Sheet>
      <h2 class="t-title">{place.name}</h2>
      {place.closed ? (
        <Notice kind="unknown" head={`${words.closed}.`} live="off">
          {words.closedSays}
        </Notice>
      ) : null}
      <FactRows facts={factsOf(place)} />
      <section class="page-section">
        <PiecesThere {...props} />
        <OnDay shown={props.day} today={today} onAsk={props.onDay} />
      </section>
      {inside.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.placesWithin}</h2>
          <ListRows
            label={words.placesWithin}
            rows={inside.map(({ id, name, what }) => ({
              ...{ key: id, href: `/places/${id}`, main: name, second: words.placeSorts[what] },
            }))}
          />
        </section>
      ) : null}
      <Changing {...props} />
    </Sheet>
  );
}

function factsOf(place: PlaceBrief): readonly Fact[] {
  return [
    { label: words.placeSort, rest: words.placeSorts[place.what] },
    { label: words.carries, rest: words.carriesIs[place.carries] },
    ...(place.side ? [{ label: words.side, rest: words.sideIs[place.side] }] : []),
    ...(place.within
      ? [{ label: words.within, rest: <a href={`/places/${place.within.id}`}>{place.within.name}</a> }]
      : []),
    ...(place.number ? [{ label: words.cardNumber, rest: <TagNumber number={place.number} /> }] : []),
  ];
}

function PiecesThere(props: WholeProps) {
  const { page, say, clock } = props;
  const day = page.on && sayLongDay(page.on);
  const count = page.pieces.length;
  const head = day ? words.piecesOn(count, day) : words.piecesNow(count);
  if (count === 0) {
    return (
      <Notice kind="empty" head={day ? words.nothingThereOn(day) : words.nothingThere}>
        {day ? "" : words.nothingThereNext}
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

/** Describing anew and closing, for those who may. */
function Changing(props: WholeProps) {
  const { page, places, describe, close, say } = props;
  const [isChanging, setChanging] = useState(false);
  const [isClosing, setClosing] = useState(false);
  const sending = useSend();
  const { place } = page;
  const sendClose = async () => {
    setClosing(false);
    if (close && (await sending.send(close, words.placeClosed(place.name)))) props.again();
  };
  return (
    <section class="page-section no-print">
      <div class="button-row">
        {describe ? (
          <Button expanded={isChanging} controls="change-place" onPress={() => setChanging(!isChanging)}>
            {words.changePlace}
          </Button>
        ) : null}
        {close && !place.closed ? (
          <Button weight="quiet" onPress={() => setClosing(true)}>
            {words.closePlace}
          </Button>
        ) : null}
      </div>
      <div id="change-place" hidden={!isChanging} class="page-form">
        {isChanging && describe ? (
          <PlaceForm
            place={place}
            places={places}
            onSend={async (facts) => {
              const isWritten = await sending.send(() => describe(facts), words.placeWritten(facts.name));
              if (isWritten) props.again();
              return isWritten;
            }}
          />
        ) : null}
      </div>
      <WrittenOrNot sending={sending} say={say} />
      <Dialog
        open={isClosing}
        onClose={() => setClosing(false)}
        title={words.closeAsk(place.name)}
        closeLabel={say.back}
        actions={
          <Button weight="solid" onPress={() => void sendClose()}>
            {words.closePlace}
          </Button>
        }
      >
        <p>{words.closeSays}</p>
      </Dialog>
    </section>
  );
}
