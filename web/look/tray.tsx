/**
 * The tray: pieces lie on the cutting table, and one thread runs from the left edge under every piece to the confirm.
 * Whole: the confirm can be pressed. Snapped at a piece: from there on only needle holes.
 */
import type { ComponentChildren } from "preact";
import { type TrayPlaceSize, trayLayout } from "./tray-layout.ts";

export type TrayPlace = {
  readonly key: string;
  /** coat and pants take the room of a garment, the rest stand in a row. */
  readonly size: TrayPlaceSize;
  readonly figure: ComponentChildren;
  /** "Coat", "Helmet", or counted: "Coat shells, 14". */
  readonly name: string;
  /** A verdict line, or the tag number. */
  readonly below?: ComponentChildren | undefined;
  /** The thread snaps here: this piece stops the act. */
  readonly stops?: boolean | undefined;
  readonly onPress?: (() => void) | undefined;
};

export type TrayProps = {
  readonly label: string;
  readonly places: readonly TrayPlace[];
  /** What the tray as a whole says: "Set is complete", with one sentence. */
  readonly head?: string | undefined;
  readonly says?: ComponentChildren | undefined;
  /** True when the thread goes on to the confirm. */
  readonly whole: boolean;
};

/** Draws the tray with its thread. */
export function Tray(props: TrayProps) {
  const snapsAt = props.places.findIndex((place) => place.stops);
  const layout = trayLayout(props.places.map((place) => place.size));
  const beside = layout.freeFrom <= 0.6;
  const hasHead = Boolean(props.head || props.says);
  return (
    <section
      class={`tray cutting-table${hasHead && beside ? " tray-with-head" : ""}`}
      aria-label={props.label}
    >
      {hasHead ? (
        <div
          class={`tray-head${beside ? " tray-head-beside" : ""}`}
          style={beside ? { "--tray-free": String(layout.freeFrom) } : {}}
        >
          {props.head ? <h2 class="tray-head-word">{props.head}</h2> : null}
          {props.says ? <p class="tray-head-says">{props.says}</p> : null}
        </div>
      ) : null}
      <div class="tray-lay">
        <TrayFall whole={snapsAt < 0} until={snapsAt < 0 ? props.places.length : snapsAt + 0.5} />
        <ol class="tray-places" style={{ "--tray-columns": layout.columns }}>
          {props.places.map((place, at) => (
            <Place key={place.key} place={place} reached={snapsAt < 0 || at < snapsAt} />
          ))}
        </ol>
      </div>
      <TrayThread
        whole={props.whole && snapsAt < 0}
        until={layout.knots[snapsAt] ?? layout.knots.at(-1) ?? 0}
      />
    </section>
  );
}

function Place(props: { readonly place: TrayPlace; readonly reached: boolean }) {
  const { place } = props;
  const knot = place.stops ? "tray-knot-snapped" : props.reached ? "tray-knot-whole" : "tray-knot-open";
  return (
    <li class={`tray-place tray-place-${place.size}`}>
      <div class="tray-figure">{place.figure}</div>
      <span class={`tray-knot ${knot}`} />
      <div class="tray-words">
        <p class="tray-name">{place.name}</p>
        <div class="tray-below">{place.below}</div>
      </div>
    </li>
  );
}

/** On phones: the thread falls down the right side, past the knot of each piece, to the confirm under it. */
function TrayFall(props: { readonly whole: boolean; readonly until: number }) {
  return (
    <div class="tray-fall only-phone" style={{ "--tray-rows": String(props.until) }}>
      <svg class="tray-fall-run" width="4" height="100%" aria-hidden="true">
        <line class="thread-line" x1="2" y1="0" x2="2" y2="100%" />
      </svg>
      {props.whole ? null : <span class="tray-fall-holes" />}
    </div>
  );
}

/** Whole: a line and a corner that leads down. Not whole: the line ends at a knot, holes after it. */
function TrayThread(props: { readonly whole: boolean; readonly until: number }) {
  if (props.whole) {
    return (
      <div class="tray-thread tray-thread-whole">
        <svg class="tray-thread-run" width="100%" height="20" aria-hidden="true">
          <line class="thread-line" x1="100%" y1="10" x2="0" y2="10" stroke-dashoffset="15" />
        </svg>
        <svg class="tray-thread-corner" width="16" height="100" aria-hidden="true">
          <path class="thread-line" d="M0 10A12 12 0 0 1 12 22V100" />
        </svg>
      </div>
    );
  }
  return (
    <div class="tray-thread" style={{ "--tray-until": String(props.until) }}>
      <div class="tray-thread-part">
        <svg class="tray-thread-run" width="100%" height="20" aria-hidden="true">
          <line class="thread-line" x1="0" y1="10" x2="100%" y2="10" />
        </svg>
      </div>
      <svg class="tray-thread-tail" width="40" height="40" viewBox="0 0 40 40" aria-hidden="true">
        <path class="tray-thread-stub" d="M14 10H20" />
        <path class="tray-thread-limp" d="M20 10C28 11 31 18 29 30" />
      </svg>
      <span class="tray-thread-holes" />
    </div>
  );
}
