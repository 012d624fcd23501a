/** What a trace tells, wherever it stands: the caution, the list, what cannot be excluded and what was not followed. */

import { sayLength, sayNamed, TRACE_CAUTION } from "../../../server/domain/tracing/contact-words.ts";
import type { TraceContact, TraceView } from "../../../server/domain/tracing/trace-view.ts";
import { Notice } from "../../look/notice.tsx";
import { TracePicture } from "../../look/trace-picture.tsx";

import { midSentence, sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { ContactTable } from "./contact-table.tsx";
import { pictureOf, toldOf } from "./picture-of.ts";
import { whenBy } from "./trace-words.ts";

const words = TRACING_WORDS;

export interface TraceToldProps {
  readonly view: TraceView;
  readonly clock: Clock;
  readonly onChoose?: ((contact: TraceContact) => void) | undefined;
}

export function TraceTold({ view, clock, onChoose }: TraceToldProps) {
  const when = whenBy(clock);
  return (
    <>
      <section class="page-section">
        <p class="t-lead" role="status">
          {words.found(view.contacts.length, midSentence(view.startName))}
        </p>
        <p class="t-second">{TRACE_CAUTION}</p>
      </section>
      <section class="page-section">
        <h2 class="t-head">{words.picture}</h2>
        <TracePicture
          {...pictureOf(view)}
          name={words.pictureName(midSentence(view.startName))}
          told={toldOf(view, clock)}
          sayTick={(at) => sentence(when(new Date(at).toISOString()))}
          sayLength={sayLength}
        />
      </section>
      {view.contacts.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.list}</h2>
          <ContactTable view={view} clock={clock} onChoose={onChoose} />
        </section>
      ) : (
        <Notice kind="empty" head={words.found(0, midSentence(view.startName))} />
      )}
      {view.cannotExclude.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.cannotExclude}</h2>
          <p>{words.cannotExcludeNote}</p>
          <ul>
            {view.cannotExclude.map(({ piece, name, from, to }) => (
              <li key={`${piece} ${from}`}>
                {words.gap(sayNamed(name), when(from), to === undefined ? undefined : when(to))}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {view.notFollowed.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.notFollowed}</h2>
          <p>{words.notFollowedNote}</p>
          <ul>
            {view.notFollowed.map(({ lane, holder, pieces }) => (
              <li key={lane}>{`${holder.name}, ${words.pieces(pieces.length)}`}</li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  );
}
