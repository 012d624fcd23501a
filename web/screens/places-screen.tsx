/** The places of the department, each with what it is and what it is within; a new one is named here. */
import { useState } from "preact/hooks";
import type { PlaceFacts } from "../../server/domain/register/place.ts";
import type { PlaceBrief } from "../../server/domain/scan-answer.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import type { Words } from "../look/words.ts";
import { RECORD_WORDS } from "../look/words-record.ts";
import { Awaited } from "./record/awaited.tsx";
import type { Frame } from "./record/frame.ts";
import { PlaceForm } from "./record/place-form.tsx";
import { inTreeOrder } from "./record/place-tree.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface PlacesScreenProps {
  readonly say: Words;
  readonly frame: Frame;
  readonly load: () => Promise<Asked<readonly PlaceBrief[]>>;
  /** Names a new place; absent for those who may not. */
  readonly namePlace?: ((facts: PlaceFacts) => Promise<Asked<unknown>>) | undefined;
}

export function PlacesScreen(props: PlacesScreenProps) {
  const asking = useAsked(props.load, "places");
  const { answer } = asking;
  return props.frame({
    verb: props.say.places,
    second: words.placesSays,
    children: (
      <>
        <Awaited asking={asking} what={words.thePlaces} say={props.say} />
        {answer ? <PlacesPage {...props} places={answer} again={asking.again} /> : null}
      </>
    ),
  });
}

type PageProps = PlacesScreenProps & { readonly places: readonly PlaceBrief[]; readonly again: () => void };

function PlacesPage(props: PageProps) {
  const { places, namePlace, say } = props;
  const [isNaming, setNaming] = useState(false);
  const [text, setText] = useState("");
  const sending = useSend();
  const wanted = text.trim().toLowerCase();
  const shown = inTreeOrder(places).filter(({ name }) => name.toLowerCase().includes(wanted));
  const [open, closed] = [shown.filter((place) => !place.closed), shown.filter((place) => place.closed)];
  return (
    <Sheet>
      <div class="trail-bar page-bar">
        <TextField label={say.findPlace} value={text} onInput={setText} />
        {namePlace ? (
          <Button expanded={isNaming} controls="name-place" onPress={() => setNaming(!isNaming)}>
            {words.namePlace}
          </Button>
        ) : null}
      </div>
      <section id="name-place" hidden={!isNaming} aria-label={words.namePlace} class="page-form">
        {isNaming && namePlace ? (
          <PlaceForm
            places={places}
            onSend={async (facts) => {
              const isWritten = await sending.send(() => namePlace(facts), words.placeWritten(facts.name));
              if (isWritten) props.again();
              return isWritten;
            }}
          />
        ) : null}
      </section>
      <WrittenOrNot sending={sending} say={say} />
      <PlaceRows head={words.openPlaces} places={open} />
      {closed.length > 0 ? <PlaceRows head={words.closedPlaces} places={closed} /> : null}
      {shown.length === 0 ? (
        <Notice kind="empty" head={places.length === 0 ? words.noPlaces : words.noSuchPlace}>
          {places.length === 0 ? words.noPlacesNext : words.noSuchNext}
        </Notice>
      ) : null}
    </Sheet>
  );
}

function PlaceRows(props: { readonly head: string; readonly places: readonly PlaceBrief[] }) {
  if (props.places.length === 0) return null;
  return (
    <section class="page-section">
      <h2 class="t-head">{props.head}</h2>
      <ListRows
        label={props.head}
        rows={props.places.map((place) => ({
          key: place.id,
          href: `/places/${place.id}`,
          main: place.name,
          second: [
            words.placeSorts[place.what],
            place.within && words.isWithin(place.within.name),
            place.side && words.sideIs[place.side].toLowerCase(),
          ]
            .filter(Boolean)
            .join(", "),
        }))}
      />
    </section>
  );
}
