/** A programme as it is set on the machine; what it comes to is shown before it is written. */
import { useState } from "preact/hooks";
import { extractionG } from "../../../server/domain/cleaning/extraction.ts";
import type { MachineView, ProgrammeView } from "../../../server/domain/cleaning/machine-view.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import type { SendMachine } from "./machine-dialog.tsx";
import {
  draftOf,
  HOWS,
  NEW_PROGRAMME,
  type ProgrammeDraft,
  type ProgrammeProblems,
  readProgramme,
} from "./machine-draft.ts";

const words = MACHINE_WORDS;

interface ProgrammeFormProps {
  readonly machine: MachineView;
  readonly programme?: ProgrammeView;
  readonly onSend: SendMachine;
}

export function ProgrammeForm({ machine, programme, onSend }: ProgrammeFormProps) {
  const [draft, setDraft] = useState(programme ? draftOf(programme) : NEW_PROGRAMME);
  const [usual, setUsual] = useState(programme?.usual ?? machine.programmes.length === 0);
  const [problems, setProblems] = useState<ProgrammeProblems>({});
  const read = readProgramme(draft);
  const rpm = "programme" in read ? read.programme.extractionRpm : undefined;
  const g =
    rpm !== undefined && machine.drumDiameterMm ? extractionG(rpm, machine.drumDiameterMm) : undefined;
  const send = (event: Event) => {
    event.preventDefault();
    if ("problems" in read) return setProblems(read.problems);
    const body = { machine: machine.id, id: programme?.id ?? newId(), programme: read.programme, usual };
    onSend("describeProgramme", body, words.programmeWritten(read.programme.name));
  };
  const field = (name: "name" | "temperature" | "ph" | "rpm" | "minutes", note?: string) => (
    <TextField
      label={words.programmeFields[name]}
      value={draft[name]}
      onInput={(value) => setDraft({ ...draft, [name]: value })}
      note={note}
      problem={problems[name] ? words.programmeWrong[name] : undefined}
    />
  );
  return (
    <form class="form" noValidate onSubmit={send}>
      {field("name")}
      <SelectField
        label={words.whatItDoes}
        value={draft.how}
        options={HOWS.map((value) => ({
          ...{ value, label: value === "drying" ? words.dries : CLEANING_WORDS.howCleaned[value] },
        }))}
        onChange={(how) => setDraft({ ...draft, how: how as ProgrammeDraft["how"] })}
      />
      {field("temperature", words.temperatureNote)}
      {draft.how === "drying" ? null : field("ph")}
      {field("rpm", g === undefined ? words.rpmNote : words.thatIsG(g))}
      {field("minutes", words.minutesNote)}
      <Choice
        name="usual"
        legend={words.usual}
        value={usual ? "yes" : "no"}
        options={[
          { value: "yes", label: words.isUsual },
          { value: "no", label: words.isNotUsual },
        ]}
        onChange={(value) => setUsual(value === "yes")}
      />
      <div class="panel-actions">
        {programme ? (
          <Button
            weight="quiet"
            onPress={() =>
              onSend(
                "endProgramme",
                { machine: machine.id, id: programme.id },
                words.programmeGivenUp(programme.name),
              )
            }
          >
            {words.giveUp}
          </Button>
        ) : null}
        <Button type="submit" weight="solid">
          {words.write}
        </Button>
      </div>
    </form>
  );
}
