/** Form fields: label above, 60 high, what is wrong under it with the mark of a stop. */
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { StitchMark } from "./stitches.tsx";

type FieldBasics = {
  readonly label: string;
  readonly note?: ComponentChildren | undefined;
  /** What is wrong and what would be right; absent when nothing is. */
  readonly problem?: string | undefined;
  readonly name?: string | undefined;
  readonly required?: boolean | undefined;
};

export type TextFieldProps = FieldBasics & {
  readonly value: string;
  readonly onInput: (value: string) => void;
  readonly type?: "text" | "password" | "email" | "date" | "month" | "datetime-local" | "number" | undefined;
  readonly hint?: string | undefined;
  /** Tag numbers and codes are set in the mono face. */
  readonly mono?: boolean | undefined;
  readonly autocomplete?: string | undefined;
  readonly inputmode?: "text" | "numeric" | "none" | undefined;
  readonly lines?: number | undefined;
  readonly listId?: string | undefined;
  /** The field asks for a scan: it takes the text, and sends its form when it says so. */
  readonly scans?: "fill" | "send" | undefined;
};

/** Draws a field for one line of text, or for several when `lines` says so. */
export function TextField(props: TextFieldProps) {
  const id = useId();
  const shared = {
    id,
    name: props.name,
    value: props.value,
    placeholder: props.hint,
    required: props.required,
    "aria-invalid": props.problem ? ("true" as const) : undefined,
    "aria-describedby": describedBy(id, props),
  };
  return (
    <FieldFrame id={id} field={props}>
      {props.lines ? (
        <textarea
          {...shared}
          class="field-input field-lines"
          rows={props.lines}
          onInput={(event) => props.onInput(event.currentTarget.value)}
        />
      ) : (
        <input
          {...shared}
          class={`field-input${props.mono ? " num" : ""}`}
          // The view library types each kind of input apart; they share what is used here.
          type={(props.type ?? "text") as "text"}
          autocomplete={props.autocomplete ?? "off"}
          inputMode={props.inputmode}
          list={props.listId}
          data-scans={props.scans}
          onInput={(event) => props.onInput(event.currentTarget.value)}
        />
      )}
    </FieldFrame>
  );
}

export type SelectFieldProps = FieldBasics & {
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  readonly onChange: (value: string) => void;
};

/** Draws a field that takes one of a list. */
export function SelectField(props: SelectFieldProps) {
  const id = useId();
  return (
    <FieldFrame id={id} field={props}>
      <span class="field-select">
        <select
          id={id}
          class="field-input"
          name={props.name}
          required={props.required}
          value={props.value}
          aria-invalid={props.problem ? "true" : undefined}
          aria-describedby={describedBy(id, props)}
          onChange={(event) => props.onChange(event.currentTarget.value)}
        >
          {props.options.map((option) => (
            <option key={option.value} value={option.value} selected={option.value === props.value}>
              {option.label}
            </option>
          ))}
        </select>
      </span>
    </FieldFrame>
  );
}

export type CheckFieldProps = {
  readonly label: ComponentChildren;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly name?: string | undefined;
};

/** Draws one thing to tick: a square that is crossed with one stitch. */
export function CheckField(props: CheckFieldProps) {
  return (
    <label class="check-field">
      <input
        class="check-field-input"
        type="checkbox"
        name={props.name}
        checked={props.checked}
        onChange={(event) => props.onChange(event.currentTarget.checked)}
      />
      <svg class="check-field-box" viewBox="0 0 28 28" aria-hidden="true">
        <rect class="check-field-edge" x="1" y="1" width="26" height="26" rx="3" />
        <path class="check-field-cross" d="M7 7L21 21M21 7L7 21" />
      </svg>
      <span>{props.label}</span>
    </label>
  );
}

function FieldFrame(props: {
  readonly id: string;
  readonly field: FieldBasics;
  readonly children: ComponentChildren;
}) {
  const { note, problem, label } = props.field;
  return (
    <div class="field">
      <label class="field-label" for={props.id}>
        {label}
      </label>
      {props.children}
      {note ? (
        <p class="field-note" id={`${props.id}-note`}>
          {note}
        </p>
      ) : null}
      {problem ? (
        <p class="field-problem" id={`${props.id}-problem`}>
          <StitchMark mark="differs" width={48} />
          <span>{problem}</span>
        </p>
      ) : null}
    </div>
  );
}

function describedBy(id: string, field: FieldBasics): string | undefined {
  const parts = [field.note ? `${id}-note` : "", field.problem ? `${id}-problem` : ""].filter(Boolean);
  return parts.length > 0 ? parts.join(" ") : undefined;
}
