/** Contamination events, newest first. */
import type { EventListed } from "../../../server/domain/contamination/event-views.ts";
import { ButtonLink } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { sentence } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load } from "../ask.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";

const words = EVENT_WORDS;

export function EventsScreen(props: FormScreenProps) {
  const { client, say, clock, me } = props;
  const asking = useAsked(() => load<{ events: readonly EventListed[] }>(client, "/api/events"), "events");
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  const events = asking.answer?.events;
  return props.frame({
    verb: words.events,
    second: words.eventsSay,
    children: (
      <>
        <Awaited asking={asking} what={words.theEvents} say={say} />
        {events ? (
          <Sheet>
            <div class="button-row">
              {me.role === "reader" ? null : <ButtonLink href="/events/new">{words.newEvent}</ButtonLink>}
              <ButtonLink href="/contaminants">{words.contaminants}</ButtonLink>
              <ButtonLink href="/bags">{words.bags}</ButtonLink>
            </div>
            {events.length === 0 ? (
              <Notice kind="empty" head={words.noEvents}>
                {words.noEventsNext}
              </Notice>
            ) : (
              <ListRows
                label={words.events}
                rows={events.map((event) => ({
                  key: event.id,
                  href: `/events/${event.id}`,
                  main: sentence(event.name),
                  second: [
                    sentence(when(event.from)),
                    event.where ?? event.place?.name,
                    event.incident,
                    event.kinds.map(({ name }) => name).join(", "),
                  ]
                    .filter(Boolean)
                    .join(" · "),
                  end: words.counts(event.pieces, event.members, event.held),
                }))}
              />
            )}
          </Sheet>
        ) : null}
      </>
    ),
  });
}
