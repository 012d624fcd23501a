/**
 * Buttons: plain (ink edge), quiet (line edge), solid (ink, phones only), and the one confirm with its
 * top-stitching. A confirm that cannot be pressed stays focusable and says how many reasons stand against it.
 */
import type { ComponentChildren } from "preact";

export type ButtonProps = {
  readonly children: ComponentChildren;
  readonly onPress?: (() => void) | undefined;
  /** plain: the usual; quiet: the lesser of two; solid: the phone's scan button; bare: no edge. */
  readonly weight?: "plain" | "quiet" | "solid" | "bare" | undefined;
  /** The key that does the same, shown small in a box on wide screens. */
  readonly keyHint?: string | undefined;
  readonly type?: "button" | "submit" | undefined;
  readonly name?: string | undefined;
  readonly disabled?: boolean | undefined;
  readonly expanded?: boolean | undefined;
  readonly controls?: string | undefined;
  readonly wide?: boolean | undefined;
};

/** Draws a button 56 high; on phones it has no key hint. */
export function Button(props: ButtonProps) {
  return (
    <button
      type={props.type ?? "button"}
      class={`button button-${props.weight ?? "plain"}${props.wide ? " button-wide" : ""}`}
      aria-label={props.name}
      aria-disabled={props.disabled ? "true" : undefined}
      aria-expanded={props.expanded}
      aria-controls={props.controls}
      aria-keyshortcuts={props.keyHint}
      onClick={() => (props.disabled ? undefined : props.onPress?.())}
    >
      <span class="button-text">{props.children}</span>
      {props.keyHint ? <KeyHint>{props.keyHint}</KeyHint> : null}
    </button>
  );
}

export type ButtonLinkProps = {
  readonly href: string;
  readonly children: ComponentChildren;
  readonly weight?: "plain" | "quiet" | undefined;
  readonly keyHint?: string | undefined;
};

/** Draws a link that leads to another page, in the shape of a button. */
export function ButtonLink(props: ButtonLinkProps) {
  return (
    <a class={`button button-${props.weight ?? "plain"}`} href={props.href} aria-keyshortcuts={props.keyHint}>
      <span class="button-text">{props.children}</span>
      {props.keyHint ? <KeyHint>{props.keyHint}</KeyHint> : null}
    </a>
  );
}

/** Draws the key of a button, for eyes only: `aria-keyshortcuts` tells it to the rest. */
export function KeyHint(props: { readonly children: ComponentChildren }) {
  return (
    <span class="key-hint" aria-hidden="true">
      {props.children}
    </span>
  );
}

export type ConfirmProps = {
  /** What is written: "Issue 9 pieces"; when blocked what is not: "Issue: 2 reasons". */
  readonly label: string;
  readonly onPress: () => void;
  /** True when reasons stand against it: pressing then reads them (`onRefused`). */
  readonly blocked?: boolean | undefined;
  readonly onRefused?: (() => void) | undefined;
  /** Id of the list of reasons, so that it is read with the button. */
  readonly reasonsId?: string | undefined;
  readonly keyHint?: string | undefined;
};

/** Draws the one confirm: dyed and top-stitched, or without dye and dotted when it cannot be pressed. */
export function Confirm(props: ConfirmProps) {
  const blocked = props.blocked === true;
  return (
    <span class="confirm-place">
      <button
        type="button"
        class={`confirm ${blocked ? "confirm-blocked" : "confirm-open on-dye"}`}
        aria-disabled={blocked ? "true" : undefined}
        aria-describedby={blocked ? props.reasonsId : undefined}
        aria-keyshortcuts={props.keyHint}
        onClick={() => (blocked ? props.onRefused?.() : props.onPress())}
      >
        {blocked ? null : (
          <svg class="confirm-stitch" aria-hidden="true">
            <rect class="confirm-stitch-row" x="6" y="6" rx="2" />
          </svg>
        )}
        <span class="button-text">{props.label}</span>
        {props.keyHint && !blocked ? <KeyHint>{props.keyHint}</KeyHint> : null}
      </button>
    </span>
  );
}
