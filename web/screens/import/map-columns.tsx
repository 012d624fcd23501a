/** Which column of the file holds what: guessed from its headers, said otherwise by a person. */
import { useState } from "preact/hooks";
import type { PreviewOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField } from "../../look/fields.tsx";
import { IMPORT_WORDS } from "../../look/words-import.ts";

const words = IMPORT_WORDS;
const NONE = "";

export interface MapColumnsProps {
  readonly preview: PreviewOnWire;
  readonly onRead: (columns: Readonly<Record<string, number | null>>) => void;
}

export function MapColumns({ preview, onRead }: MapColumnsProps) {
  const { columns, headers, unused, missing } = preview;
  const [chosen, setChosen] = useState<Readonly<Record<string, number | null>>>(() =>
    Object.fromEntries(columns.map(({ field, at }) => [field, at ?? null])),
  );
  const isChanged = columns.some(({ field, at }) => chosen[field] !== (at ?? null));
  const options = [
    { value: NONE, label: words.noColumn },
    ...headers.map((header, at) => ({ value: String(at), label: words.columnAt(at, header) })),
  ];
  /** A column holds one thing: choosing it here takes it from where it was. */
  const choose = (field: string, value: string) => {
    const at = value === NONE ? null : Number(value);
    const freed = Object.entries(chosen).map(([other, held]) => [other, held === at ? null : held] as const);
    setChosen({ ...Object.fromEntries(at === null ? Object.entries(chosen) : freed), [field]: at });
  };
  return (
    <section class="page-section" aria-label={words.columns}>
      <h2 class="t-head">{words.columns}</h2>
      <p class="t-second">
        {words.columnsSay}
        {unused.length > 0 ? ` ${words.unused(unused.map((at) => headers[at] || at + 1).join(", "))}` : ""}
      </p>
      <div class="column-grid">
        {columns.map(({ field, header, howToWrite }) => (
          <SelectField
            key={field}
            label={header}
            note={howToWrite}
            value={chosen[field] === null || chosen[field] === undefined ? NONE : String(chosen[field])}
            options={options}
            onChange={(value) => choose(field, value)}
            problem={missing.includes(field) && chosen[field] === null ? words.missing(header) : undefined}
          />
        ))}
      </div>
      <Button disabled={!isChanged} onPress={() => onRead(chosen)}>
        {words.readAgain}
      </Button>
    </section>
  );
}
