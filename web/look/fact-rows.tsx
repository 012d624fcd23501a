/** Rows of facts about a piece: label at the left, the main value large, what belongs to it after it. */
import type { ComponentChildren } from "preact";

export type Fact = {
  readonly label: string;
  /** Set large: a holder, an owner. */
  readonly main?: ComponentChildren | undefined;
  /** Set in body size after the main value, or alone. */
  readonly rest?: ComponentChildren | undefined;
};

/** Draws the facts as a description list, with creases between. */
export function FactRows(props: { readonly facts: readonly Fact[] }) {
  return (
    <dl class="fact-rows">
      {props.facts.map((fact) => (
        <div class={`fact${fact.main ? " fact-large" : ""}`} key={fact.label}>
          <dt class="fact-label">{fact.label}</dt>
          <dd class="fact-value">
            {fact.main ? <b class="fact-main">{fact.main}</b> : null}
            {fact.main && fact.rest ? <span class="fact-comma only-wide">, </span> : null}
            {fact.rest ? <span class="fact-rest">{fact.rest}</span> : null}
          </dd>
        </div>
      ))}
    </dl>
  );
}
