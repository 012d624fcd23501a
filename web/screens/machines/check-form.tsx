/** What a check of a machine found. */
import { useState } from "preact/hooks";
import type { MachineView } from "../../../server/domain/cleaning/machine-view.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import type { SendMachine } from "./machine-dialog.tsx";

const words = MACHINE_WORDS;

export function CheckForm(props: { readonly machine: MachineView; readonly onSend: SendMachine }) {
  const { machine, onSend } = props;
  const [outcome, setOutcome] = useState<"in order" | "faulty">("in order");
  const [note, setNote] = useState("");
  const send = (event: Event) => {
    event.preventDefault();
    const told = note.trim() ? { note: note.trim().slice(0, 2000) } : {};
    onSend(
      "checkMachine",
      { machine: machine.id, outcome, ...told },
      words.checkWritten(machine.name, outcome),
    );
  };
  return (
    <form class="form" noValidate onSubmit={send}>
      <Choice
        name="outcome"
        legend={words.found}
        value={outcome}
        options={[
          { value: "in order", label: words.outcomes["in order"] },
          { value: "faulty", label: words.outcomes.faulty },
        ]}
        onChange={setOutcome}
      />
      {outcome === "faulty" ? <p>{words.faultySays}</p> : null}
      <TextField label={words.note} value={note} onInput={setNote} lines={3} />
      <Button type="submit" weight="solid">
        {words.write}
      </Button>
    </form>
  );
}
