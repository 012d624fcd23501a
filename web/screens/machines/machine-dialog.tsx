/** Describes a machine, one of its programmes, or a check of it. */
import { useState } from "preact/hooks";
import { MACHINE_SORTS, type MachineSort } from "../../../server/domain/cleaning/machine.ts";
import type { MachineView, ProgrammeView } from "../../../server/domain/cleaning/machine-view.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import { CheckForm } from "./check-form.tsx";
import { readDiameter, readWhole, sayDiameter } from "./machine-draft.ts";
import { ProgrammeForm } from "./programme-form.tsx";

const words = MACHINE_WORDS;

/** What the dialog is open for. */
export type MachineAsked =
  | { readonly what: "machine"; readonly machine?: MachineView }
  | { readonly what: "programme"; readonly machine: MachineView; readonly programme?: ProgrammeView }
  | { readonly what: "check"; readonly machine: MachineView };

export type MachineCommand =
  | "describeMachine"
  | "describeProgramme"
  | "endProgramme"
  | "checkMachine"
  | "closeMachine";
export type SendMachine = (command: MachineCommand, body: object, says: string) => void;

export interface MachineDialogProps {
  readonly asked: MachineAsked | undefined;
  readonly places: readonly PlaceBrief[];
  readonly say: Words;
  readonly onSend: SendMachine;
  readonly onShut: () => void;
}

export function MachineDialog(props: MachineDialogProps) {
  const { asked } = props;
  return (
    <Dialog
      open={asked !== undefined}
      onClose={props.onShut}
      title={asked ? words.asks[asked.what] : ""}
      closeLabel={props.say.close}
    >
      {asked?.what === "machine" ? (
        <MachineForm key={asked.machine?.id} {...props} machine={asked.machine} />
      ) : null}
      {asked?.what === "programme" ? (
        <ProgrammeForm key={asked.programme?.id} {...asked} onSend={props.onSend} />
      ) : null}
      {asked?.what === "check" ? <CheckForm machine={asked.machine} onSend={props.onSend} /> : null}
    </Dialog>
  );
}

function MachineForm(props: MachineDialogProps & { readonly machine: MachineView | undefined }) {
  const { machine, places } = props;
  const [name, setName] = useState(machine?.name ?? "");
  const [what, setWhat] = useState<MachineSort>(machine?.what ?? "washer-extractor");
  const [place, setPlace] = useState<string>(machine?.place.id ?? "");
  const [drum, setDrum] = useState(machine?.drumDiameterMm ? `${machine.drumDiameterMm} mm` : "");
  const [most, setMost] = useState(machine?.mostGarments ? String(machine.mostGarments) : "");
  const [isTried, setTried] = useState(false);
  const [mm, garments] = [readDiameter(drum), readWhole(most, 1, 100)];
  const isNamed = name.trim() !== "" && name.trim().length <= 80;
  const wrong = {
    name: !isNamed,
    place: place === "",
    drum: drum.trim() !== "" && mm === undefined,
    most: most.trim() !== "" && garments === undefined,
  };
  const send = (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(wrong).some(Boolean)) return;
    const facts = {
      ...{ id: machine?.id ?? newId(), name: name.trim(), what, place },
      ...(mm === undefined ? {} : { drumDiameterMm: mm }),
      ...(garments === undefined ? {} : { mostGarments: garments }),
    };
    props.onSend("describeMachine", facts, words.described(name.trim()));
  };
  return (
    <form class="form" noValidate onSubmit={send}>
      <TextField
        label={words.name}
        value={name}
        onInput={setName}
        problem={isTried && wrong.name ? words.nameNeeded : undefined}
      />
      <Choice
        name="machine-sort"
        legend={words.sort}
        value={what}
        options={MACHINE_SORTS.map((value) => ({ value, label: words.sorts[value] }))}
        onChange={setWhat}
      />
      <SelectField
        label={words.place}
        value={place}
        options={[
          { value: "", label: words.choosePlace },
          ...places
            .filter(({ closed }) => !closed)
            .map((one) => ({ value: one.id as string, label: one.name })),
        ]}
        onChange={setPlace}
        problem={isTried && wrong.place ? words.placeNeeded : undefined}
        note={words.placeNote}
      />
      <TextField
        label={words.drum}
        value={drum}
        onInput={setDrum}
        note={mm === undefined ? words.drumNote : sayDiameter(mm)}
        problem={isTried && wrong.drum ? words.drumWrong : undefined}
      />
      <TextField
        label={words.most}
        value={most}
        onInput={setMost}
        inputmode="numeric"
        note={words.mostNote}
        problem={isTried && wrong.most ? words.wholeNumber : undefined}
      />
      <Button type="submit" weight="solid">
        {words.write}
      </Button>
    </form>
  );
}
