/** Makes the places that rows name and the register lacks, before the file is read again. */
import { useState } from "preact/hooks";
import type { PlaceSort } from "../../../server/domain/register/place.ts";
import { PLACE_SORTS, usualCarries } from "../../../server/domain/register/place.ts";
import type { Client } from "../../api/client.ts";
import { newId } from "../../api/uuid-v7.ts";
import type { PreviewOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { IMPORT_WORDS } from "../../look/words-import.ts";
import { useActs } from "../forms/use-acts.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";

const words = IMPORT_WORDS;
const LEFT_OUT = "left out";

export interface MissingPlacesProps {
  readonly client: Client;
  readonly say: Words;
  readonly places: PreviewOnWire["missingPlaces"];
  readonly onMade: () => void;
}

export function MissingPlaces({ client, say, places, onMade }: MissingPlacesProps) {
  const sendAct = useActs(client);
  const sending = useSend();
  const [sorts, setSorts] = useState<Readonly<Record<string, string>>>({});
  const [ids] = useState(() => new Map(places.map(({ name }) => [name, newId<string>()])));
  const sortOf = (place: (typeof places)[number]) =>
    sorts[place.name] ?? (place.what === "station" ? "station" : "rack");
  const made = places.filter((place) => sortOf(place) !== LEFT_OUT);
  const make = async () => {
    for (const place of made) {
      const what = sortOf(place) as PlaceSort;
      const command = { id: ids.get(place.name) ?? "", name: place.name, what, carries: usualCarries(what) };
      if (!(await sending.send(() => sendAct("namePlace", command), ""))) return;
    }
    onMade();
  };
  return (
    <section class="page-section" aria-label={words.missingPlaces}>
      <h2 class="t-head">{words.missingPlaces}</h2>
      <p class="t-second">{words.missingPlacesSay}</p>
      <div class="column-grid">
        {places.map((place) => (
          <SelectField
            key={place.name}
            label={words.placeSort(place.name)}
            note={`${words.rows}: ${place.rows}`}
            value={sortOf(place)}
            options={[
              ...PLACE_SORTS.map((value) => ({ value, label: words.sorts[value] })),
              { value: LEFT_OUT, label: words.leaveOut },
            ]}
            onChange={(value) => setSorts({ ...sorts, [place.name]: value })}
          />
        ))}
      </div>
      <WrittenOrNot sending={sending} say={say} />
      <Button disabled={made.length === 0} onPress={() => void make()}>
        {words.makePlaces(made.length)}
      </Button>
    </section>
  );
}
