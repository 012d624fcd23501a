/** What a run is printed on: stock, the printer's dots, the labels that are gone, and how much a tag says. */
import type { PrintOptionsOnWire } from "../../api/wire.ts";
import { SelectField, TextField } from "../../look/fields.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";

const words = PRINT_WORDS;

export interface PrintOnChoice {
  readonly stock: PrintOptionsOnWire["tagStocks"][number]["name"];
  readonly dpi: PrintOptionsOnWire["dpis"][number];
  readonly words: "all" | "without the model" | "number alone";
  readonly used: string;
}
export const FIRST_CHOICE: PrintOnChoice = { stock: "roll", dpi: "203", words: "all", used: "0" };

export interface PrintOnProps {
  readonly options: PrintOptionsOnWire;
  readonly choice: PrintOnChoice;
  readonly onChoice: (choice: PrintOnChoice) => void;
  /** Spare tags say their number alone. */
  readonly withWords: boolean;
}

/** Says what is wrong with the count of used labels; undefined when it fits the stock. */
export function usedProblem({ stock, used }: PrintOnChoice, options: PrintOptionsOnWire): string | undefined {
  const places = options.tagStocks.find(({ name }) => name === stock)?.places ?? 1;
  return /^\d{1,3}$/.test(used) && Number(used) < places ? undefined : words.usedWrong(places);
}

export function PrintOn({ options, choice, onChoice, withWords }: PrintOnProps) {
  const stock = options.tagStocks.find(({ name }) => name === choice.stock);
  return (
    <div class="column-grid">
      <SelectField
        label={words.stock}
        value={choice.stock}
        options={options.tagStocks.map(({ name, places, isSheet }) => {
          return { value: name, label: isSheet ? words.sheet(name, places) : words.roll };
        })}
        onChange={(value) => onChoice({ ...choice, stock: value as PrintOnChoice["stock"], used: "0" })}
      />
      <SelectField
        label={words.dpi}
        note={words.dpiNote}
        value={choice.dpi}
        options={options.dpis.map((dpi) => ({ value: dpi, label: words.dpiOf(dpi) }))}
        onChange={(value) => onChoice({ ...choice, dpi: value as PrintOnChoice["dpi"] })}
      />
      {stock?.isSheet ? (
        <TextField
          label={words.used}
          inputmode="numeric"
          value={choice.used}
          onInput={(used) => onChoice({ ...choice, used })}
          problem={usedProblem(choice, options)}
        />
      ) : null}
      {withWords ? (
        <SelectField
          label={words.words}
          value={choice.words}
          options={[
            { value: "all", label: words.allWords },
            { value: "without the model", label: words.withoutModel },
            { value: "number alone", label: words.numberAlone },
          ]}
          onChange={(value) => onChoice({ ...choice, words: value as PrintOnChoice["words"] })}
        />
      ) : null}
    </div>
  );
}
