/** One place: what it is, what lies there now or lay there on a day, and how it is changed or closed. */
import { useState } from "preact/hooks";
import type { PlacePage } from "../../server/domain/page-views.ts";
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
import { HolderPieces } from "./record/holder-pieces.tsx";
import { KnownThen } from "./record/known-at.tsx";
import { PlaceForm } from "./record/place-form.tsx";
import { isNow, type Then, ThenForm, thenKey } from "./record/then.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface PlaceScreenProps {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  /** Asks for the place now, on a day, as known at a position; `after` is where the page before ended. */
  readonly load: (on?: string, knownAt?: number, after?: string) => Promise<Asked<PlacePage>>;
  /** Every place, for what this one can be within. */
  readonly places: readonly PlaceBrief[];
  /** Describes the place anew; absent for those who may not. */
  readonly describe?: ((facts: PlaceFacts) => Promise<Asked<unknown>>) | undefined;
  readonly close?: (() => Promise<Asked<unknown>>) | undefined;
}

export function PlaceScreen(props: PlaceScreenProps) {
  const [then, setThen] = useState<Then>({});
  const asking = useAsked(() => props.load(then.on, then.knownAt), thenKey(then));
  const { answer } = asking;
  return props.frame({
    verb: words.place,
    second: words.placeSays,
    children: (
      <>
        <Awaited
          asking={asking}
          what={words.thePlace}
          say={props.say}
          onNow={isNow(then) ? undefined : () => setThen({})}
        />
        {answer ? <Whole {...props} page={answer} then={then} onThen={setThen} again={asking.again} /> : null}
      </>
    ),
  });
}

type WholeProps = PlaceScreenProps & {
  readonly page: PlacePage;
  readonly then: Then;
  readonly onThen: (then: Then) => void;
  readonly again: () => void;
};

function Whole(props: WholeProps) {
  const { page, clock } = props;
  const { place, inside } = page;
  const { day: today } = localMoment(clock.now, clock.timeZone);
  return (
    <Sheet>
      <h2 class="t-title">{place.name}</h2>
      {place.closed ? (
        <Notice kind="unknown" head={`${words.closed}.`} live="off">
          {words.closedSays}
        </Notice>
      ) : null}
      <KnownThen shown={page.knownAt} clock={clock} />
      <FactRows facts={factsOf(place)} />
      <section class="page-section">
        <PiecesThere {...props} />
        <ThenForm shown={props.then} today={today} onAsk={props.onThen} />
      </section>
      {inside.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.placesWithin}</h2>
          <ListRows
            label={words.placesWithin}
            rows={inside.map(({ place: inner, pieces }) => ({
              key: inner.id ?? inner.name,
              href: `/places/${inner.id}`,
              main: inner.name,
              second: words.piecesInside(pieces),
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
      ? [
          {
            label: words.within,
            rest: (
              <a class="row-link" href={`/places/${place.within.id}`}>
                {place.within.name}
              </a>
            ),
          },
        ]
      : []),
    ...(place.number ? [{ label: words.cardNumber, rest: <TagNumber number={place.number} /> }] : []),
  ];
}

function PiecesThere(props: WholeProps) {
  const { page, then, say, clock } = props;
  const day = page.on && sayLongDay(page.on);
  return (
    <HolderPieces
      page={page}
      head={(count, isPart) => {
        const pieces = words.firstPieces(count, isPart);
        return day ? words.piecesOn(pieces, day) : words.piecesNow(pieces);
      }}
      empty={
        <Notice kind="empty" head={day ? words.nothingThereOn(day) : words.nothingThere}>
          {day ? "" : words.nothingThereNext}
        </Notice>
      }
      more={(after) => props.load(then.on, then.knownAt, after)}
      clock={clock}
      say={say}
    />
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
