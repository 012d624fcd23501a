/** Corrects one entry of a trail: where it went, when it was, or that it did not happen; always with the reason. */
import { useEffect, useState } from "preact/hooks";
import type { Holder } from "../../../server/domain/custody/holder.ts";
import type { TrailEntry } from "../../../server/domain/page-views.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";
import { CORRECT_WORDS } from "../../look/words-correct.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { type CorrectDraft, correctionOf, type Wrong, whatCanBeWrong } from "./correct-draft.ts";
import { localMoment } from "./days.ts";

const words = CORRECT_WORDS;

/** A holder by name, to choose among. */
export interface HolderChoice {
  readonly holder: Holder;
  readonly name: string;
  readonly detail?: string | undefined;
}

export interface CorrectDialogProps {
  readonly piece: string;
  /** The entry to correct; undefined keeps the dialog shut. */
  readonly entry: TrailEntry | undefined;
  readonly holders: () => Promise<readonly HolderChoice[]>;
  readonly clock: Clock;
  readonly say: Words;
  readonly onSend: (command: "correctMove" | "takeBackAct", body: object, entry: TrailEntry) => void;
  readonly onClose: () => void;
}

export function CorrectDialog(props: CorrectDialogProps) {
  const { entry, say } = props;
  return (
    <Dialog
      open={entry !== undefined}
      onClose={props.onClose}
      title={words.correctEntry(entry?.version ?? 0)}
      closeLabel={say.close}
    >
      {entry ? <Question key={entry.version} {...props} entry={entry} /> : null}
    </Dialog>
  );
}

function Question(props: CorrectDialogProps & { readonly entry: TrailEntry }) {
  const { entry, clock } = props;
  const kinds = whatCanBeWrong(entry);
  const { day, clock: time } = localMoment(Date.parse(entry.at), clock.timeZone);
  const [draft, setDraft] = useState<CorrectDraft>({
    wrong: kinds[0] ?? "entry",
    at: `${day}T${time}`,
    note: "",
  });
  const correction = correctionOf(props.piece, entry, draft, clock.timeZone);
  return (
    <div class="form">
      <p>{words.correctsBoth}</p>
      <SelectField
        label={words.whatIsWrong}
        value={draft.wrong}
        options={kinds.map((value) => ({ value, label: words.isWrong[value] }))}
        onChange={(wrong) => setDraft({ ...draft, wrong: wrong as Wrong })}
      />
      {draft.wrong === "holder" ? (
        <HolderField {...props} chosen={draft.to} onChoose={(to) => setDraft({ ...draft, to })} />
      ) : null}
      {draft.wrong === "time" ? (
        <TextField
          label={words.whenItWas}
          type="datetime-local"
          value={draft.at}
          onInput={(at) => setDraft({ ...draft, at })}
        />
      ) : null}
      <TextField
        label={words.why}
        value={draft.note}
        onInput={(note) => setDraft({ ...draft, note })}
        lines={2}
        required
        note={correction ? undefined : words.needs}
      />
      <div class="panel-actions">
        <Button
          weight="solid"
          disabled={!correction}
          onPress={() => correction && props.onSend(correction.command, correction.body, entry)}
        >
          {words.write}
        </Button>
      </div>
    </div>
  );
}

/** As many matches as fit under the field without scrolling it away. */
const SHOWN = 4;

function isCalled({ name, detail = "" }: HolderChoice, wanted: string): boolean {
  return `${name} ${detail}`.toLowerCase().includes(wanted);
}

function HolderField(props: {
  readonly holders: CorrectDialogProps["holders"];
  readonly chosen: HolderChoice | undefined;
  readonly onChoose: (choice: HolderChoice) => void;
}) {
  const [all, setAll] = useState<readonly HolderChoice[]>([]);
  const [text, setText] = useState("");
  useEffect(() => {
    void props.holders().then(setAll);
  }, []);
  const wanted = text.trim().toLowerCase();
  const found = all.filter((choice) => wanted !== "" && choice !== props.chosen && isCalled(choice, wanted));
  return (
    <>
      <TextField
        label={words.findHolder}
        value={text}
        onInput={setText}
        note={props.chosen ? words.chosen(props.chosen.name) : undefined}
      />
      {found.length === 0 && wanted !== "" && all.length > 0 ? <p>{words.noHolder}</p> : null}
      <ListRows
        label={words.whereItWent}
        rows={found.slice(0, SHOWN).map((choice) => ({
          key: `${choice.holder.kind} ${"id" in choice.holder ? choice.holder.id : ""}`,
          main: choice.name,
          second: choice.detail,
          onPress: () => {
            props.onChoose(choice);
            setText("");
          },
        }))}
      />
    </>
  );
}
