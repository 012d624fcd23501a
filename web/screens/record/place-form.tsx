/** Names a place, or describes it anew: one form for both. */
import { useState } from "preact/hooks";
import type { PlaceId } from "../../../server/domain/ids.ts";
import {
  type Carries,
  PLACE_SORTS,
  type PlaceFacts,
  type PlaceSort,
  usualCarries,
} from "../../../server/domain/register/place.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { insideOf } from "./place-tree.ts";

const words = RECORD_WORDS;

export interface PlaceFormProps {
  /** The place that is described anew; without it a new one is named. */
  readonly place?: PlaceBrief | undefined;
  /** Every place, for what it can be within. */
  readonly places: readonly PlaceBrief[];
  readonly onSend: (facts: PlaceFacts) => Promise<boolean>;
}

interface Draft {
  readonly name: string;
  readonly what: PlaceSort;
  readonly carries: Carries;
  readonly side: "" | "soiled" | "clean";
  readonly within: string;
}

const NEW: Draft = { name: "", what: "rack", carries: "shared", side: "", within: "" };

export function PlaceForm(props: PlaceFormProps) {
  const [draft, setDraft] = useState<Draft>(props.place ? draftOf(props.place) : NEW);
  const [isTried, setTried] = useState(false);
  const set = <Field extends keyof Draft>(field: Field, value: Draft[Field]) =>
    setDraft({ ...draft, [field]: value });
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (draft.name.trim() === "" || !(await props.onSend(factsOf(draft)))) return;
    setTried(false);
    if (!props.place) setDraft({ ...NEW, what: draft.what, carries: draft.carries, within: draft.within });
  };
  return (
    <form class="form" onSubmit={(event) => void send(event)}>
      <TextField
        label={words.placeName}
        value={draft.name}
        onInput={(name) => set("name", name)}
        note={words.placeNameNote}
        problem={isTried && draft.name.trim() === "" ? words.placeNeedsName : undefined}
      />
      <SelectField
        label={words.placeSort}
        value={draft.what}
        options={PLACE_SORTS.map((value) => ({ value, label: words.placeSorts[value] }))}
        onChange={(value) => {
          const what = value as PlaceSort;
          setDraft({ ...draft, what, carries: usualCarries(what) });
        }}
      />
      <SelectField
        label={words.carries}
        value={draft.carries}
        note={words.carriesNote}
        options={(["closed", "shared", "apart"] as const).map((value) => ({
          value,
          label: words.carriesIs[value],
        }))}
        onChange={(value) => set("carries", value as Carries)}
      />
      <Choice
        name="side"
        legend={words.side}
        value={draft.side}
        options={(["", "soiled", "clean"] as const).map((value) => ({ value, label: words.sideIs[value] }))}
        onChange={(side) => set("side", side)}
      />
      <SelectField
        label={words.within}
        value={draft.within}
        options={[{ value: "", label: words.withinNothing }, ...withinOptions(props)]}
        onChange={(within) => set("within", within)}
      />
      <Button type="submit" weight="solid">
        {props.place ? words.changePlace : words.namePlace}
      </Button>
    </form>
  );
}

/** A place can be within any open place but itself and what is within it. */
function withinOptions({ place, places }: PlaceFormProps) {
  const barred = new Set(place ? [place.id, ...insideOf(place.id, places).map(({ id }) => id)] : []);
  return places
    .filter(({ id, closed }) => !closed && !barred.has(id))
    .map(({ id, name, within }) => ({
      value: id as string,
      label: within ? `${name}, ${within.name}` : name,
    }))
    .sort((a, b) => a.label.localeCompare(b.label, "en", { numeric: true }));
}

function draftOf({ name, what, carries, side, within }: PlaceBrief): Draft {
  return { name, what, carries, side: side ?? "", within: within?.id ?? "" };
}

function factsOf({ name, what, carries, side, within }: Draft): PlaceFacts {
  return {
    ...{ name: name.trim(), what, carries },
    ...(side ? { side } : {}),
    ...(within ? { within: within as PlaceId } : {}),
  };
}
