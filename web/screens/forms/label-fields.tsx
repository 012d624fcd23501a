/** The fields of a maker's label, the same for a new piece and for one that is read anew. */
import { useId } from "preact/hooks";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import { TextField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import type { LabelDraft, Problems } from "./register-draft.ts";

const words = FORM_WORDS;

export interface LabelFieldsProps {
  readonly say: Words;
  readonly draft: LabelDraft;
  readonly problems: Problems<LabelDraft>;
  /** Rows of the model table for this kind: their makers and names are proposed. */
  readonly models: readonly ModelShown[];
  readonly isShell: boolean;
  readonly set: (field: keyof LabelDraft, value: string) => void;
  /** What else is said under a field, such as what was on record before. */
  readonly noteOf?: ((field: keyof LabelDraft) => string | undefined) | undefined;
}

export function LabelFields(props: LabelFieldsProps) {
  const { say, draft, models } = props;
  const id = useId();
  const makers = [...new Set(models.map(({ maker }) => maker))];
  const ofMaker = models.filter(({ maker }) => draft.maker.trim() === "" || isSame(maker, draft.maker));
  const field = (name: keyof LabelDraft, label: string, note?: string, listId?: string) => (
    <TextField
      label={label}
      name={name}
      value={draft[name]}
      onInput={(value) => props.set(name, value)}
      note={[props.noteOf?.(name), note].filter(Boolean).join(" ") || undefined}
      problem={props.problems[name]}
      listId={listId}
      scans={name === "serial" || name === "lot" ? "fill" : undefined}
    />
  );
  return (
    <>
      <div class="field-grid">
        {field("maker", say.maker, undefined, `${id}-makers`)}
        {field("modelName", say.model, modelNote(draft, models), `${id}-models`)}
        {field("size", say.size, words.sizeNote)}
        {field("pattern", say.pattern, words.patternNote)}
        {field("linerCode", say.linerCode, props.isShell ? words.linerCodeOfShell : words.linerCodeOfLayer)}
        {field("serial", words.serial, words.serialNote)}
        {field("lot", words.lot, words.lotNote)}
        {field("cutNumber", words.cutNumber, words.cutNote)}
        {field("madeOn", words.made, words.madeNote)}
        {field("materials", words.materials)}
      </div>
      <datalist id={`${id}-makers`}>
        {makers.map((maker) => (
          <option key={maker} value={maker} />
        ))}
      </datalist>
      <datalist id={`${id}-models`}>
        {[...new Set(ofMaker.map(({ name }) => name))].map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </>
  );
}

/** Says whether maker and model name are in the model table, and what the table says that the model takes. */
function modelNote({ maker, modelName }: LabelDraft, models: readonly ModelShown[]): string | undefined {
  if (maker.trim() === "" || modelName.trim() === "") return undefined;
  const row = models.find((model) => isSame(model.maker, maker) && isSame(model.name, modelName));
  if (!row) return words.modelNotInTable;
  const takes = row.takes.map(({ takesLinerCode, takesModelName }) => takesLinerCode ?? takesModelName);
  return words.modelInTable(takes.length > 0 ? takes.join(", ") : "");
}

function isSame(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
