/** A field that takes one file: the browser's own chooser behind a button of ours, and the file's name beside it. */
import { useId } from "preact/hooks";

export type FileFieldProps = {
  readonly label: string;
  readonly choose: string;
  readonly note: string;
  /** What the chooser shows first: ".csv,text/csv". */
  readonly accept: string;
  readonly fileName: string | undefined;
  readonly onFile: (file: File) => void;
};

/** Draws the field. The input itself stays in the page for keyboard and ears; the button is its label. */
export function FileField(props: FileFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <span class="field-label" id={`${id}-label`}>
        {props.label}
      </span>
      <div class="file-field">
        <input
          id={id}
          class="file-field-input"
          type="file"
          accept={props.accept}
          aria-labelledby={`${id}-label`}
          aria-describedby={`${id}-note`}
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file) props.onFile(file);
            // The same file chosen again is a choice too.
            event.currentTarget.value = "";
          }}
        />
        <label class="button button-plain" for={id}>
          <span class="button-text">{props.choose}</span>
        </label>
        <span class="file-field-name">{props.fileName}</span>
      </div>
      <p class="field-note" id={`${id}-note`}>
        {props.note}
      </p>
    </div>
  );
}
