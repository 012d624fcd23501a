/** Asks for a day instead of now. */
import { useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { TextField } from "../../look/fields.tsx";
import { RECORD_WORDS } from "../../look/words-record.ts";

export interface OnDayProps {
  readonly shown: string | undefined;
  /** The last day that can be asked for: today where the department is. */
  readonly today: string;
  readonly onAsk: (day: string | undefined) => void;
}

export function OnDay(props: OnDayProps) {
  const words = RECORD_WORDS;
  const [day, setDay] = useState(props.shown ?? "");
  const isAhead = day > props.today;
  return (
    <form
      class="field-row no-print"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isAhead) props.onAsk(day || undefined);
      }}
    >
      <TextField
        label={words.onDay}
        type="date"
        value={day}
        onInput={setDay}
        note={words.dayNote}
        problem={isAhead ? words.dayAhead : undefined}
      />
      <Button type="submit" weight="quiet">
        {words.showDay}
      </Button>
      {props.shown ? (
        <Button
          weight="quiet"
          onPress={() => {
            setDay("");
            props.onAsk(undefined);
          }}
        >
          {words.showNow}
        </Button>
      ) : null}
    </form>
  );
}
