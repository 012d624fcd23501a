/** Chooses none, all or some of what can have a card: places, members, people with a badge. */
import { useState } from "preact/hooks";
import { Choice } from "../../look/choice.tsx";
import { CheckField, TextField } from "../../look/fields.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";

const words = PRINT_WORDS;
/** As many as one looks through; finding narrows it down. */
const SHOWN = 50;

export interface CardHolder {
  readonly id: string;
  readonly name: string;
}
export interface Picked {
  readonly how: "none" | "all" | "some";
  readonly ids: readonly string[];
}

export interface ChooseHoldersProps {
  readonly name: string;
  readonly legend: string;
  readonly note?: string;
  readonly all: readonly CardHolder[];
  readonly picked: Picked;
  readonly onPick: (picked: Picked) => void;
}

export function ChooseHolders({ name, legend, note, all, picked, onPick }: ChooseHoldersProps) {
  const [text, setText] = useState("");
  const wanted = text.trim().toLowerCase();
  const shown = all.filter((each) => each.name.toLowerCase().includes(wanted)).slice(0, SHOWN);
  const choose = (how: Picked["how"]) => onPick({ how, ids: how === "all" ? all.map(({ id }) => id) : [] });
  const turn = (id: string, isIn: boolean) =>
    onPick({ how: "some", ids: isIn ? [...picked.ids, id] : picked.ids.filter((each) => each !== id) });
  return (
    <div>
      <Choice
        name={name}
        legend={`${legend}, ${all.length}`}
        options={(["none", "all", "some"] as const).map((value) => ({ value, label: words.pick[value] }))}
        value={picked.how}
        onChange={choose}
      />
      {note ? <p class="field-note">{note}</p> : null}
      {picked.how === "some" ? (
        <>
          {all.length > SHOWN ? <TextField label={words.find} value={text} onInput={setText} /> : null}
          <div class="check-list">
            {shown.map((each) => (
              <CheckField
                key={each.id}
                label={each.name}
                checked={picked.ids.includes(each.id)}
                onChange={(isIn) => turn(each.id, isIn)}
              />
            ))}
          </div>
        </>
      ) : null}
    </div>
  );
}
