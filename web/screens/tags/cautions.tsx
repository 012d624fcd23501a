/** What has to be settled before a run, and the word that it was read. Shown before every run anew. */
import type { PrintOptionsOnWire } from "../../api/wire.ts";
import { CheckField } from "../../look/fields.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";

const words = PRINT_WORDS;

export interface CautionsProps {
  readonly options: PrintOptionsOnWire;
  readonly isSheet: boolean;
  readonly isRead: boolean;
  readonly onRead: (isRead: boolean) => void;
}

export function Cautions({ options, isSheet, isRead, onRead }: CautionsProps) {
  const cautions = isSheet ? [...options.cautions, options.sheetCaution] : options.cautions;
  return (
    <section id="print-cautions" tabIndex={-1} aria-label={words.cautions}>
      <h2 class="t-head">{words.cautions}</h2>
      <ul class="caution-list">
        {cautions.map(({ text, basis }) => (
          <li key={text}>
            {text} <span class="t-second">{words.basis(basis)}</span>
          </li>
        ))}
      </ul>
      <CheckField label={words.ackCautions} checked={isRead} onChange={onRead} />
    </section>
  );
}
