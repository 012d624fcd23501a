/**
 * The mode line: says what the next scan will do. Undyed with one row of stitches it changes nothing;
 * dyed with two rows it will write. It stands at the top of every screen and is never scrolled away.
 */

import { Button } from "./buttons.tsx";
import { FittedVerb } from "./tape-verb.tsx";

export type Person = { readonly name: string; readonly role: string };

export type TapeProps = {
  /** The mode: "Look up", "Issue to Corwin Bask". It is the page's h1. */
  readonly verb: string;
  /** What the next scan does, in words; begins "Stopped." when stopped. */
  readonly second: string;
  readonly writes: boolean;
  /** 88 high, for pages away from the bench. */
  readonly slim?: boolean | undefined;
  readonly person?: Person | undefined;
  readonly menuLabel: string;
  readonly menuOpen?: boolean | undefined;
  readonly menuId?: string | undefined;
  readonly onMenu?: (() => void) | undefined;
  readonly changeLabel?: string | undefined;
  readonly onChangeMode?: (() => void) | undefined;
};

/** Draws the mode line with menu, verb, second line, "Change mode" and who is signed in. */
export function Tape(props: TapeProps) {
  const dress = `tape ${props.writes ? "tape-dyed on-dye" : "tape-undyed"}${props.slim ? " tape-slim" : ""}`;
  return (
    <header class={dress}>
      <TapeRows two={props.writes} />
      {props.onMenu ? <MenuButton {...props} onMenu={props.onMenu} /> : null}
      <div class="tape-words" role="status">
        <FittedVerb verb={props.verb} slim={props.slim === true} />
        <p class="tape-second">{props.second}</p>
      </div>
      {props.onChangeMode ? (
        <span class="tape-change only-wide">
          <Button keyHint="O" onPress={props.onChangeMode}>
            {props.changeLabel}
          </Button>
        </span>
      ) : null}
      {props.person ? (
        <p class="tape-person only-wide">
          <b>{props.person.name}</b>
          <span>{props.person.role}</span>
        </p>
      ) : null}
    </header>
  );
}

function TapeRows(props: { readonly two: boolean }) {
  return (
    <>
      {props.two ? <TapeRow place="upper" /> : null}
      <TapeRow place="lower" />
    </>
  );
}

function TapeRow(props: { readonly place: "upper" | "lower" }) {
  return (
    <svg class={`tape-row tape-row-${props.place}`} width="100%" height="4" aria-hidden="true">
      <line class="tape-row-line" x1="0" y1="2" x2="100%" y2="2" />
    </svg>
  );
}

function MenuButton(props: TapeProps & { readonly onMenu: () => void }) {
  return (
    <button
      type="button"
      class="tape-menu"
      aria-expanded={props.menuOpen === true}
      aria-controls={props.menuId}
      onClick={props.onMenu}
    >
      <svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true">
        <path class="tape-menu-outer" d="M1.6 0V23.6H25" />
        <path class="tape-menu-stitch" d="M9 1V13M8 16H25" />
        <path class="tape-menu-inner" d="M16 1V9.4H25" />
      </svg>
      <span>{props.menuLabel}</span>
    </button>
  );
}
