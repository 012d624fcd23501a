/** A one-time link as it is shown once: to be copied, with until when it opens. */
import { useRef, useState } from "preact/hooks";
import { Button } from "../../look/buttons.tsx";
import { FORM_WORDS } from "../../look/words-forms.ts";

const words = FORM_WORDS;

export function OneTimeLink(props: { readonly address: string; readonly until: string }) {
  const field = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState("");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(props.address);
      setTold(words.copied);
    } catch {
      // Without a secure context there is no clipboard to write to; the text is marked for copying by hand.
      field.current?.focus();
      field.current?.select();
      setTold(words.notCopied);
    }
  };
  return (
    <section class="one-time-link" aria-label={words.linkHead}>
      <div class="field">
        <label class="field-label" for="one-time-link">
          {words.linkHead}
        </label>
        <input
          ref={field}
          id="one-time-link"
          class="field-input num"
          readOnly
          value={props.address}
          onFocus={(event) => event.currentTarget.select()}
        />
        <p class="field-note">{words.linkSays(props.until)}</p>
      </div>
      <div class="button-row">
        <Button onPress={() => void copy()}>{words.copy}</Button>
        <p role="status">{told}</p>
      </div>
    </section>
  );
}
