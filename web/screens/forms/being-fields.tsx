/** The role of an account, with the member or station that it is of. */
import { ROLES, type Role } from "../../../server/domain/register/account.ts";
import { SelectField } from "../../look/fields.tsx";
import { sentence, type Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { roleWord } from "../../look/words-record.ts";
import { memberLabels } from "../record/name-lists.ts";
import type { AccountDraft, BeingDraft } from "./account-draft.ts";
import type { Lists } from "./lists.ts";
import type { Problems } from "./register-draft.ts";

const words = FORM_WORDS;

export interface BeingFieldsProps {
  readonly say: Words;
  readonly lists: Pick<Lists, "members" | "places">;
  readonly draft: BeingDraft;
  readonly problems: Problems<AccountDraft>;
  readonly set: (changes: Partial<BeingDraft>) => void;
}

export function BeingFields({ say, lists, draft, problems, set }: BeingFieldsProps) {
  const members = memberLabels(lists.members.filter(({ leftOn }) => !leftOn));
  const stations = lists.places.filter(({ what, closed }) => what === "station" && !closed);
  return (
    <>
      <SelectField
        label={words.role}
        value={draft.role}
        options={ROLES.map((value) => ({ value, label: sentence(roleWord(value, say)) }))}
        onChange={(role) => set({ role: role as Role })}
      />
      <SelectField
        label={words.memberOf}
        value={draft.member}
        note={words.memberNote}
        options={[
          { value: "", label: words.noMember },
          ...members.map(({ id, label }) => ({ value: id, label })),
        ]}
        onChange={(member) => set({ member })}
        problem={problems.member}
      />
      {draft.role === "company officer" ? (
        <SelectField
          label={words.station}
          value={draft.station}
          note={words.stationNote}
          options={[
            { value: "", label: words.noStation },
            ...stations.map(({ id, name }) => ({ value: id as string, label: name })),
          ]}
          onChange={(station) => set({ station })}
          problem={problems.station}
        />
      ) : null}
    </>
  );
}
