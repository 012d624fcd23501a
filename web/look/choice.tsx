/** A choice of one among few: segments in one frame, each a radio button, the chosen one bold with a dyed edge. */
export type ChoiceOption<V extends string> = { readonly value: V; readonly label: string };

export type ChoiceProps<V extends string> = {
  readonly name: string;
  readonly legend: string;
  readonly options: readonly ChoiceOption<V>[];
  readonly value: V | undefined;
  readonly onChange: (value: V) => void;
  readonly hideLegend?: boolean | undefined;
};

/** Draws the choice; the legend stands above it. */
export function Choice<V extends string>(props: ChoiceProps<V>) {
  return (
    <fieldset class="choice">
      <legend class={props.hideLegend ? "for-ears" : "choice-legend"}>{props.legend}</legend>
      <div class="choice-frame">
        {props.options.map((option) => (
          <label class="choice-option" key={option.value}>
            <input
              class="choice-input"
              type="radio"
              name={props.name}
              value={option.value}
              checked={option.value === props.value}
              onChange={() => props.onChange(option.value)}
            />
            <span class="choice-dot" />
            <span class="choice-label">{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
