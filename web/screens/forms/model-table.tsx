/** The rows of the model table: what each model takes and needs, how it is washed, and who says so. */
import type { KindState } from "../../../server/domain/register/kind.ts";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import { Button } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { sayLongDay } from "../record/days.ts";

const words = FORM_WORDS;

export interface ModelTableProps {
  readonly say: Words;
  readonly models: readonly ModelShown[];
  readonly kinds: readonly KindState[];
  /** Opens the form of a row; absent for those who may not write. */
  readonly onChange?: ((model: ModelShown) => void) | undefined;
}

export function ModelTable(props: ModelTableProps) {
  const kindName = (code: string) => props.kinds.find((kind) => kind.code === code)?.name ?? code;
  const { onChange } = props;
  const head = words.modelColumn;
  return (
    <DataTable
      caption={props.say.modelTable}
      hideCaption
      rows={props.models}
      rowKey={({ id }) => id}
      columns={[
        { key: "model", head: head.model, names: true, cell: ({ maker, name }) => `${maker} ${name}` },
        { key: "kind", head: head.kind, cell: ({ kind }) => kindName(kind) },
        { key: "takes", head: head.takes, cell: (model) => takesLines(model, kindName) },
        {
          key: "layers",
          head: head.layers,
          cell: ({ layers }) => (layers.length > 0 ? layers.map(kindName).join(", ") : words.unknownPick),
        },
        { key: "wash", head: head.wash, cell: ({ wash }) => (wash ? words.washes[wash] : words.unknownPick) },
        { key: "source", head: head.source, cell: sourceLine },
        ...(onChange
          ? [
              {
                key: "change",
                head: words.change,
                cell: (model: ModelShown) => (
                  <Button
                    weight="quiet"
                    name={`${words.change}: ${model.maker} ${model.name}`}
                    onPress={() => onChange(model)}
                  >
                    {words.change}
                  </Button>
                ),
              },
            ]
          : []),
      ]}
    />
  );
}

function takesLines({ takes }: ModelShown, kindName: (code: string) => string) {
  if (takes.length === 0) return words.unknownPick;
  return (
    <ul class="plain-list">
      {takes.map(({ layerKind, takesModelName, takesLinerCode }) => {
        const what = [takesModelName, takesLinerCode && words.liner(takesLinerCode)]
          .filter(Boolean)
          .join(", ");
        return <li key={`${layerKind} ${what}`}>{words.takesLine(kindName(layerKind), what)}</li>;
      })}
    </ul>
  );
}

function sourceLine({ source, sourceBy }: ModelShown): string {
  const day = source.on ? words.onDay(sayLongDay(source.on)) : words.dayNotRecorded;
  return `${words.sources[source.what]}, ${day}, ${words.sourceBy(sourceBy)}`;
}
