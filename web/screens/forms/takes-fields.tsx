/** What a shell model takes: for each layer the model, or the liner code, that fits. */
import type { KindState } from "../../../server/domain/register/kind.ts";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isTakesWhole, type TakesDraft } from "./model-draft.ts";

const words = FORM_WORDS;

export interface TakesFieldsProps {
  readonly say: Words;
  readonly layers: readonly KindState[];
  readonly models: readonly ModelShown[];
  readonly rows: readonly TakesDraft[];
  readonly problem?: string | undefined;
  readonly onRows: (rows: readonly TakesDraft[]) => void;
}

export function TakesFields(props: TakesFieldsProps) {
  const { layers, rows, onRows } = props;
  const set = (at: number, changes: Partial<TakesDraft>) =>
    onRows(rows.map((row, n) => (n === at ? { ...row, ...changes } : row)));
  const first = layers[0]?.code ?? "";
  return (
    <section aria-label={words.takesHead}>
      <h2 class="t-head form-head">{words.takesHead}</h2>
      {rows.map((row, at) => (
        // Rows have no name of their own: their place on the list is what they are.
        <div class="field-row takes-row" key={at}>
          <SelectField
            label={words.layerKind}
            value={row.layerKind}
            options={layers.map(({ code, name }) => ({ value: code, label: name }))}
            onChange={(layerKind) => set(at, { layerKind, takesModel: "" })}
          />
          <SelectField
            label={words.takesModel}
            value={row.takesModel}
            options={[
              { value: "", label: words.byCode },
              ...props.models
                .filter(({ kind }) => kind === row.layerKind)
                .map(({ id, maker, name }) => ({ value: id as string, label: `${maker} ${name}` })),
            ]}
            onChange={(takesModel) => set(at, { takesModel })}
          />
          <TextField
            label={words.takesCode}
            value={row.takesLinerCode}
            onInput={(takesLinerCode) => set(at, { takesLinerCode })}
            problem={props.problem && !isTakesWhole(row) ? props.problem : undefined}
          />
          <Button weight="quiet" onPress={() => onRows(rows.filter((_, n) => n !== at))}>
            {words.removeTakes}
          </Button>
        </div>
      ))}
      <Button onPress={() => onRows([...rows, { layerKind: first, takesModel: "", takesLinerCode: "" }])}>
        {words.addTakes}
      </Button>
    </section>
  );
}
