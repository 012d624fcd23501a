/** Bags: those that wait first, with their age in large figures; more are named here and their cards printed. */
import { type BagShown, SIX_HOURS } from "../../../server/domain/custody/bag-views.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";

const words = EVENT_WORDS;
const BENCH = ["technician", "inspector", "program manager"];

export function BagsScreen(props: FormScreenProps) {
  const { client, say, me } = props;
  const asking = useAsked(() => load<{ bags: readonly BagShown[] }>(client, "/api/bags"), "bags");
  const sendAct = useActs(client);
  const sending = useSend();
  const bags = asking.answer?.bags;
  const make = async () => {
    const body = { bags: Array.from({ length: 10 }, newId) };
    if (await sending.send(() => sendAct("makeBags", body as never), words.bagsMade)) asking.again();
  };
  return props.frame({
    verb: words.bags,
    second: words.bagsSay,
    children: (
      <>
        <Awaited asking={asking} what={words.theBags} say={say} />
        {bags ? (
          <Sheet>
            {BENCH.includes(me.role) ? (
              <div class="button-row">
                <Button onPress={() => void make()}>{words.makeBags}</Button>
                <ButtonLink href="/cards">{words.printCards}</ButtonLink>
              </div>
            ) : null}
            <WrittenOrNot sending={sending} say={say} />
            {bags.length === 0 ? (
              <Notice kind="empty" head={words.noBags}>
                {words.noBagsNext}
              </Notice>
            ) : (
              <ListRows
                label={words.bags}
                rows={bags.map((bag) => ({
                  key: bag.id,
                  href: `/places/${bag.id}`,
                  main: bag.name,
                  second:
                    bag.pieces === 0
                      ? words.empty
                      : [
                          words.waits(bag.pieces, bag.presumed),
                          ...bag.members.map(({ name }) => name),
                          ...bag.events.map(({ name }) => name),
                          bag.within?.name,
                        ]
                          .filter(Boolean)
                          .join(" · "),
                  end: bag.since ? <BagAge since={bag.since} now={props.clock.now} /> : undefined,
                }))}
              />
            )}
            <p class="field-note">{words.sixHours(SIX_HOURS.says, SIX_HOURS.source, SIX_HOURS.caution)}</p>
          </Sheet>
        ) : null}
      </>
    ),
  });
}

/** How long a bag has waited, in large figures; no verdict is made of it. */
export function BagAge({ since, now }: { readonly since: string; readonly now: number }) {
  const minutes = Math.max(0, Math.floor((now - Date.parse(since)) / 60_000));
  return <span class="bag-age num">{words.age(minutes)}</span>;
}
