/** The limits for washing programmes, with where their starting values come from. */
import {
  LIMIT_SETTINGS,
  LIMITS_SOURCE,
  type LimitSetting,
} from "../../../server/domain/cleaning/programme-limits.ts";
import type { Settings } from "../../../server/domain/register/policy.ts";
import { TextField } from "../../look/fields.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import type { Problems } from "./register-draft.ts";

interface LimitFieldsProps {
  readonly draft: Settings;
  readonly problems: Problems<Settings>;
  readonly onChange: (changes: Partial<Settings>) => void;
}

export function LimitFields({ draft, problems, onChange }: LimitFieldsProps) {
  return (
    <fieldset class="layer-checks">
      <legend>{CLEANING_WORDS.limits}</legend>
      {(Object.keys(LIMIT_SETTINGS) as LimitSetting[]).map((name) => (
        <TextField
          key={name}
          label={CLEANING_WORDS.limit[name]}
          value={draft[name]}
          onInput={(figure) => onChange({ [name]: figure })}
          problem={problems[name]}
        />
      ))}
      <p class="field-note">{`${CLEANING_WORDS.source}: ${LIMITS_SOURCE}`}</p>
    </fieldset>
  );
}
