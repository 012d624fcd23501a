/**
 * Entries of a trail: time, mark, one sentence with its verb in bold, then who and how. A correction and what it
 * corrects name each other; both stay. Entries stand under their month.
 */
import type { ComponentChildren } from "preact";
import { TrailMark, type TrailMarkName } from "./stitches.tsx";

export type TrailEntryProps = {
  /** "Tue 24", "14 Jun to 2 Jul". */
  readonly day: string;
  /** "10:14"; absent for a gap. */
  readonly time?: string | undefined;
  /** The machine-readable moment for `<time>`. */
  readonly moment?: string | undefined;
  readonly mark: TrailMarkName;
  /** What the mark means, for ears: "written down later". */
  readonly markSays?: string | undefined;
  /** "Moved", "Put on hold: differs." */
  readonly verb: string;
  /** The rest of the sentence. */
  readonly children?: ComponentChildren | undefined;
  /** Said in second text: "Written down on Thu 19 Nov, 08:05", "Corrected the next day: it was Rack C1." */
  readonly aside?: ComponentChildren | undefined;
  /** "Inez Calloway, technician". */
  readonly who?: ComponentChildren | undefined;
  /** "scanned, entry 31". */
  readonly how?: ComponentChildren | undefined;
  readonly id?: string | undefined;
  /** What can be done about it: a button, never on paper. */
  readonly act?: ComponentChildren | undefined;
};

/** Draws one entry. */
export function TrailEntry(props: TrailEntryProps) {
  return (
    <li class={`trail-entry trail-entry-${props.mark}`} id={props.id}>
      <time class="trail-when" dateTime={props.moment}>
        {props.day}
        {props.time ? <span class="trail-time"> {props.time}</span> : null}
      </time>
      <span class="trail-mark">
        <TrailMark mark={props.mark} />
        {props.markSays ? <span class="for-ears">{props.markSays}</span> : null}
      </span>
      <p class="trail-says">
        <b>{props.verb}</b> {props.children}{" "}
        {props.aside ? <span class="trail-aside">{props.aside}</span> : null}
      </p>
      <p class="trail-who">
        <span>{props.who}</span>
        {props.how ? <span>{props.how}</span> : null}
        {props.act ? <span class="trail-act no-print">{props.act}</span> : null}
      </p>
    </li>
  );
}

export type TrailMonthProps = { readonly head: string; readonly children: ComponentChildren };

/** Draws the entries of one month under its name. */
export function TrailMonth(props: TrailMonthProps) {
  return (
    <section class="trail-month">
      <h3 class="trail-month-head">{props.head}</h3>
      <ol>{props.children}</ol>
    </section>
  );
}

export type LastActsProps = {
  readonly head: string;
  readonly acts: readonly {
    readonly key: string;
    readonly when: string;
    readonly mark: TrailMarkName;
    readonly says: ComponentChildren;
  }[];
};

/** Draws the last acts of a piece in short lines. */
export function LastActs(props: LastActsProps) {
  return (
    <section class="last-acts">
      <h3 class="last-acts-head">{props.head}</h3>
      <ol>
        {props.acts.map((act) => (
          <li class="last-acts-line" key={act.key}>
            <span class="last-acts-mark">
              <TrailMark mark={act.mark} small />
            </span>
            <span class="last-acts-when">{act.when}</span>
            <span class="last-acts-says">{act.says}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}
