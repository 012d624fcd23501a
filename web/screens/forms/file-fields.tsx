/** What is on file of a piece beside its label: whose it is, how it was paid for, since when it is in service. */
import type { Owner } from "../../../server/domain/pieces/piece-entries.ts";
import { SelectField, TextField } from "../../look/fields.tsx";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { memberLabels } from "../record/name-lists.ts";
import type { Lists } from "./lists.ts";
import type { FileDraft, Problems } from "./register-draft.ts";

const words = FORM_WORDS;
const OWNERS = Object.keys(words.owners) as readonly Owner["kind"][];

export interface FileFieldsProps {
  readonly draft: FileDraft;
  readonly problems: Problems<FileDraft>;
  readonly lists: Pick<Lists, "members" | "providers">;
  readonly set: (changes: Partial<FileDraft>) => void;
  readonly ownerNote?: string | undefined;
}

export function FileFields(props: FileFieldsProps) {
  const { draft, problems, lists, set } = props;
  const owners =
    draft.ownerKind === "member"
      ? memberLabels(lists.members.filter(({ leftOn }) => !leftOn))
      : lists.providers.filter(({ closed }) => !closed).map(({ id, name }) => ({ id, label: name }));
  return (
    <div class="field-grid">
      <SelectField
        label={words.owner}
        value={draft.ownerKind}
        note={props.ownerNote}
        options={OWNERS.map((value) => ({ value, label: words.owners[value] }))}
        onChange={(value) => set({ ownerKind: value as Owner["kind"], ownerId: "" })}
      />
      {draft.ownerKind === "member" || draft.ownerKind === "provider" ? (
        <SelectField
          label={draft.ownerKind === "member" ? words.whichMember : words.whichProvider}
          value={draft.ownerId}
          options={[
            { value: "", label: words.chooseOne },
            ...owners.map(({ id, label }) => ({ value: id as string, label })),
          ]}
          onChange={(ownerId) => set({ ownerId })}
          problem={problems.ownerId}
        />
      ) : null}
      <TextField
        label={words.funding}
        value={draft.funding}
        onInput={(funding) => set({ funding })}
        note={words.fundingNote}
        problem={problems.funding}
      />
      <TextField
        label={words.purchaseOrder}
        value={draft.purchaseOrder}
        onInput={(purchaseOrder) => set({ purchaseOrder })}
        problem={problems.purchaseOrder}
      />
      <TextField
        label={words.price}
        value={draft.price}
        onInput={(price) => set({ price })}
        note={words.priceNote}
        problem={problems.price}
      />
      <TextField
        label={words.inService}
        type="date"
        value={draft.inServiceOn}
        onInput={(inServiceOn) => set({ inServiceOn })}
        problem={problems.inServiceOn}
      />
    </div>
  );
}
