/** Names a provider or an outside party, changes it, or closes it. */
import { useState } from "preact/hooks";
import type { OutsideFacts, OutsideState, ProviderState } from "../../../server/domain/register/parties.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";
import { PARTY_WORDS } from "../../look/words-parties.ts";

const words = PARTY_WORDS;

/** What the dialog is open for: a new party, or one on record. */
export type PartyAsked =
  | { readonly what: "provider"; readonly party?: ProviderState }
  | { readonly what: "outside"; readonly party?: OutsideState };

export interface PartyDialogProps {
  readonly asked: PartyAsked | undefined;
  readonly say: Words;
  readonly onSend: (command: "nameProvider" | "nameOutside", body: object, name: string) => void;
  /** Absent for those who may not close. */
  readonly onCloseParty:
    | ((command: "closeProvider" | "closeOutside", body: object, name: string) => void)
    | undefined;
  readonly onShut: () => void;
}

export function PartyDialog(props: PartyDialogProps) {
  const { asked, say } = props;
  const verb = asked?.party ? words.change : words.nameOne;
  return (
    <Dialog
      open={asked !== undefined}
      onClose={props.onShut}
      title={asked ? verb[asked.what] : ""}
      closeLabel={say.close}
    >
      {asked ? <PartyForm key={asked.party?.id ?? asked.what} {...props} asked={asked} /> : null}
    </Dialog>
  );
}

const SORTS = Object.entries(words.whatIs).map(([value, label]) => ({ value, label }));

function PartyForm(props: PartyDialogProps & { readonly asked: PartyAsked }) {
  const { asked, onCloseParty } = props;
  const provider = asked.what === "provider" ? asked.party : undefined;
  const [name, setName] = useState(asked.party?.name ?? "");
  const [until, setUntil] = useState<string>(provider?.verifiedUntil ?? "");
  const [by, setBy] = useState(provider?.verifiedBy ?? "");
  const [sort, setSort] = useState<OutsideFacts["what"]>(
    asked.what === "outside" && asked.party ? asked.party.what : "hospital",
  );
  const [isTried, setTried] = useState(false);
  const said = name.trim();
  const isNamed = said !== "" && said.length <= 120;
  const send = (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (!isNamed) return;
    const id = asked.party?.id ?? newId();
    if (asked.what === "outside") return props.onSend("nameOutside", { id, name: said, what: sort }, said);
    const verified = {
      ...(until ? { verifiedUntil: until } : {}),
      ...(by.trim() ? { verifiedBy: by.trim() } : {}),
    };
    props.onSend("nameProvider", { id, name: said, ...verified }, said);
  };
  const close = () => {
    if (!asked.party || !onCloseParty) return;
    if (asked.what === "provider")
      onCloseParty("closeProvider", { provider: asked.party.id }, asked.party.name);
    else onCloseParty("closeOutside", { outside: asked.party.id }, asked.party.name);
  };
  return (
    <form class="form" noValidate onSubmit={send}>
      <TextField
        label={words.name}
        value={name}
        onInput={setName}
        problem={isTried && !isNamed ? words.nameNeeded : undefined}
        required
      />
      {asked.what === "provider" ? (
        <>
          <TextField
            label={words.verifiedUntil}
            type="date"
            value={until}
            onInput={setUntil}
            note={words.verifiedUntilNote}
          />
          <TextField label={words.verifiedBy} value={by} onInput={setBy} note={words.verifiedByNote} />
        </>
      ) : (
        <SelectField
          label={words.what}
          value={sort}
          options={SORTS}
          onChange={(value) => setSort(value as OutsideFacts["what"])}
        />
      )}
      {asked.party && onCloseParty && !asked.party.closed ? <p>{words.closeSays}</p> : null}
      <div class="panel-actions">
        {asked.party && onCloseParty && !asked.party.closed ? (
          <Button weight="quiet" onPress={close}>
            {words.close}
          </Button>
        ) : null}
        <Button type="submit" weight="solid">
          {words.write}
        </Button>
      </div>
    </form>
  );
}
