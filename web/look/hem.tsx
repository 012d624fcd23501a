/**
 * The hem: the bottom band of every screen. Scan field at the left, the last act in the middle, the one
 * confirm at the right end. On phones two large buttons stand in its place, and who is signed in.
 */
import type { ComponentChildren } from "preact";
import { Button } from "./buttons.tsx";
import type { Person } from "./tape.tsx";

export type ScanFieldProps = {
  readonly label: string;
  /** "Scan, or type a tag": what the field waits for. */
  readonly hint: string;
  readonly value: string;
  readonly onInput: (value: string) => void;
  readonly onEnter?: ((value: string) => void) | undefined;
  readonly inputRef?: { current: HTMLInputElement | null } | undefined;
};

export type HemProps = {
  readonly scan: ScanFieldProps;
  /** The last act or what the confirm will add to it. */
  readonly note?: ComponentChildren | undefined;
  /** Buttons of the right end, the confirm last. */
  readonly end?: ComponentChildren | undefined;
  /** The tray's whole thread comes in at the right and ends in the confirm. */
  readonly threaded?: boolean | undefined;
  readonly person?: Person | undefined;
  readonly phone: PhoneHem;
};

export type PhoneHem = {
  readonly scanLabel: string;
  readonly onScan: () => void;
  readonly typeLabel: string;
  readonly onType: () => void;
  /** True while the field is shown over the two buttons. */
  readonly typing?: boolean | undefined;
  /** Takes the place of "Type a tag" (which then moves beside the name): "Clear", or the confirm. */
  readonly second?: ComponentChildren | undefined;
  /** Stands at the right end under the two buttons: "Change mode". */
  readonly below?: ComponentChildren | undefined;
};

/** Draws the hem for both widths. */
export function Hem(props: HemProps) {
  const dress = `hem${props.phone.typing ? " hem-typing" : ""}`;
  return (
    <footer class={dress}>
      {props.threaded ? <HemThread /> : null}
      <ScanField {...props.scan} />
      <div class="hem-note only-wide">{props.note}</div>
      <div class="hem-end only-wide">{props.end}</div>
      <div class="hem-phone only-phone">
        <Button weight="solid" wide onPress={props.phone.onScan}>
          {props.phone.scanLabel}
        </Button>
        {props.phone.second ?? (
          <Button wide onPress={props.phone.onType} expanded={props.phone.typing === true}>
            {props.phone.typeLabel}
          </Button>
        )}
      </div>
      <div class="hem-below only-phone">
        {props.person ? (
          <p class="hem-person">
            <b>{props.person.name}</b>
            <span class="hem-role">, {props.person.role}</span>
          </p>
        ) : null}
        {props.phone.second ? (
          <Button weight="bare" onPress={props.phone.onType} expanded={props.phone.typing === true}>
            {props.phone.typeLabel}
          </Button>
        ) : null}
        {props.phone.below}
      </div>
    </footer>
  );
}

/** Draws the scan field: it shows what is typed; scans are taken without focus, so its caret always stands. */
export function ScanField(props: ScanFieldProps) {
  return (
    <form
      class="scan-field"
      onSubmit={(event) => {
        event.preventDefault();
        props.onEnter?.(props.value);
      }}
    >
      <input
        ref={props.inputRef ?? null}
        class="scan-field-input num"
        type="text"
        aria-label={props.label}
        placeholder={props.hint}
        value={props.value}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        enterkeyhint="go"
        onInput={(event) => props.onInput(event.currentTarget.value)}
      />
    </form>
  );
}

export type LastActProps = { readonly head: string; readonly text: string };

/** Says the last act in one line: "Last act" in bold, then time and what. */
export function LastAct(props: LastActProps) {
  return (
    <p class="last-act">
      <b>{props.head}</b> {props.text}
    </p>
  );
}

function HemThread() {
  return (
    <>
      <svg class="hem-thread only-wide" width="32" height="64" aria-hidden="true">
        <path class="thread-line" d="M16 0V34A12 12 0 0 1 4 46H0" />
      </svg>
      <svg class="hem-thread only-phone" width="32" height="14" aria-hidden="true">
        <path class="thread-line" d="M16 0V12" />
      </svg>
    </>
  );
}
