/** Asks for the record as it was known at a position, and says when what is shown is not today's. */
import { useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { sayPosition } from "./lead-words.ts";

export interface KnownAtProps {
  readonly shown?: { readonly position: number; readonly recordedAt: string } | undefined;
  readonly clock: Clock;
  readonly onAsk: (position: number | undefined) => void;
}

/** Reads a position as a person writes it: `1204`, `1,204` or `1 204`. Undefined for anything else. */
export function readPosition(text: string): number | undefined {
  const plain = text.replace(/[\s,.]/g, "");
  return /^[1-9]\d{0,14}$/.test(plain) ? Number(plain) : undefined;
}

export function KnownAt(props: KnownAtProps) {
  const words = RECORD_WORDS;
  const [text, setText] = useState("");
  const [isWrong, setWrong] = useState(false);
  return (
    <form
      class="known-at no-print"
      onSubmit={(event) => {
        event.preventDefault();
        const position = readPosition(text);
        setWrong(position === undefined);
        if (position !== undefined) props.onAsk(position);
      }}
    >
      <h2 class="t-head">{words.knownHead}</h2>
      <div class="field-row">
        <TextField
          label={words.knownPosition}
          value={text}
          onInput={setText}
          inputmode="numeric"
          note={words.knownNote}
          problem={isWrong ? words.knownNotNumber : undefined}
        />
        <Button type="submit" weight="quiet">
          {words.knownShow}
        </Button>
        {props.shown ? (
          <Button weight="quiet" onPress={() => props.onAsk(undefined)}>
            {words.knownNow}
          </Button>
        ) : null}
      </div>
    </form>
  );
}

/** Says above everything else that later entries are left out. */
export function KnownThen(props: Pick<KnownAtProps, "shown" | "clock">) {
  const { shown, clock } = props;
  if (!shown) return null;
  const when = sayWhen(shown.recordedAt, clock.now, clock.timeZone);
  return (
    <Notice kind="unknown" head={RECORD_WORDS.knownThen}>
      {RECORD_WORDS.knownSays(sayPosition(shown.position), when)}
    </Notice>
  );
}
