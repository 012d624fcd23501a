/** Asks for a day instead of now, and for the record as it was known at a position. */
import { useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { TextField } from "../../look/fields.tsx";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { readPosition } from "./known-at.tsx";

/** The stand that a page is asked for: a day, a position of the record, both, or neither for now. */
export interface Then {
  readonly on?: string;
  readonly knownAt?: number;
}

export interface ThenFormProps {
  readonly shown: Then;
  /** The last day that can be asked for: today where the department is. */
  readonly today: string;
  readonly onAsk: (then: Then) => void;
}

export function ThenForm(props: ThenFormProps) {
  const words = RECORD_WORDS;
  const { shown } = props;
  const [day, setDay] = useState(shown.on ?? "");
  const [position, setPosition] = useState(shown.knownAt ? String(shown.knownAt) : "");
  const [isTried, setTried] = useState(false);
  const knownAt = readPosition(position);
  const isAhead = day > props.today;
  const isNoPosition = position.trim() !== "" && knownAt === undefined;
  const send = (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (isAhead || isNoPosition) return;
    props.onAsk({ ...(day ? { on: day } : {}), ...(knownAt ? { knownAt } : {}) });
  };
  const now = () => {
    setDay("");
    setPosition("");
    props.onAsk({});
  };
  return (
    <form class="field-row no-print" onSubmit={send}>
      <TextField
        label={words.onDay}
        type="date"
        value={day}
        onInput={setDay}
        note={words.dayNote}
        problem={isTried && isAhead ? words.dayAhead : undefined}
      />
      <TextField
        label={words.knownPosition}
        value={position}
        onInput={setPosition}
        inputmode="numeric"
        note={words.positionNote}
        problem={isTried && isNoPosition ? words.knownNotNumber : undefined}
      />
      <Button type="submit" weight="quiet">
        {words.showThen}
      </Button>
      {isNow(shown) ? null : (
        <Button weight="quiet" onPress={now}>
          {words.showNow}
        </Button>
      )}
    </form>
  );
}

/** Tells whether a page is asked for as it is and as it is known now. */
export function isNow({ on, knownAt }: Then): boolean {
  return on === undefined && knownAt === undefined;
}

/** Names a stand, so that a page asks anew when it changes. */
export function thenKey({ on, knownAt }: Then): string {
  return `${on ?? "now"} ${knownAt ?? "newest"}`;
}
