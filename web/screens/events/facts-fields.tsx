/** The fields of an event: what happened, when, where, which kinds. */
import { CheckField, TextField } from "../../look/fields.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import type { EventDraft, FactsProblem } from "./event-facts.ts";

const words = EVENT_WORDS;

export interface FactsFieldsProps {
  readonly draft: EventDraft;
  readonly kinds: readonly { readonly code: string; readonly name: string }[];
  readonly missing: readonly FactsProblem[];
  readonly onChange: (draft: EventDraft) => void;
}

export function FactsFields({ draft, kinds, missing, onChange }: FactsFieldsProps) {
  const set = (field: keyof EventDraft) => (value: string) => onChange({ ...draft, [field]: value });
  const toggle = (code: string, isIn: boolean) =>
    onChange({ ...draft, kinds: isIn ? [...draft.kinds, code] : draft.kinds.filter((one) => one !== code) });
  return (
    <>
      <TextField
        label={words.name}
        value={draft.name}
        onInput={set("name")}
        note={words.nameNote}
        problem={missing.includes("name") ? words.needsName : undefined}
      />
      <fieldset class="choice event-kinds">
        <legend class="choice-legend">{words.kinds}</legend>
        {kinds.map(({ code, name }) => (
          <CheckField
            key={code}
            label={name}
            checked={draft.kinds.includes(code)}
            onChange={(isIn) => toggle(code, isIn)}
          />
        ))}
        {missing.includes("kinds") ? (
          <p class="field-problem" role="alert">
            {words.needsKind}
          </p>
        ) : null}
      </fieldset>
      <TextField label={words.from} type="datetime-local" value={draft.from} onInput={set("from")} />
      <TextField
        label={words.to}
        type="datetime-local"
        value={draft.to}
        onInput={set("to")}
        problem={missing.includes("times") ? words.needsTimes : undefined}
      />
      <TextField label={words.where} value={draft.where} onInput={set("where")} note={words.whereNote} />
      <TextField label={words.incident} value={draft.incident} onInput={set("incident")} />
      <TextField
        label={words.note}
        value={draft.note}
        onInput={set("note")}
        note={words.noteNote}
        lines={2}
      />
    </>
  );
}
