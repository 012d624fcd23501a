/** Bags at the bench: those that wait, what is found and missing of one that is opened, and its age in large figures. */
import { useEffect, useState } from "preact/hooks";
import { type BagShown, SIX_HOURS } from "../../../server/domain/custody/bag-views.ts";
import { Button } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Band } from "../../look/page.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import type { OpenMode } from "./bag-mode.ts";
import type { TrayPiece } from "./bench-run.ts";
import type { Clock } from "./look-up-panel.tsx";
import type { Bench } from "./use-bench.ts";

const words = EVENT_WORDS;

export function OpeningBag(props: {
  readonly mode: OpenMode;
  readonly tray: readonly TrayPiece[];
  readonly clock: Clock;
}) {
  const { mode, tray, clock } = props;
  const { pieces, since } = mode.contents;
  const seen = new Set(tray.map(({ piece }) => piece.id as string));
  const expected = new Set(pieces.map(({ id }) => id as string));
  const missing = pieces.filter(({ id }) => !seen.has(id));
  const strangers = tray.filter(({ piece }) => !expected.has(piece.id));
  return (
    <Band>
      {since ? <Age since={since} now={clock.now} name={mode.bag.name} large /> : null}
      <p class="t-head">{words.inTheBag(pieces.length - missing.length, pieces.length)}</p>
      {missing.length > 0 ? (
        <p>{`${words.missing(missing.length)}: ${missing.map(({ name }) => name).join(", ")}.`}</p>
      ) : null}
      {strangers.length > 0 ? (
        <p>{`${words.strangers(strangers.length)}: ${strangers.map(({ piece }) => piece.kind.name).join(", ")}.`}</p>
      ) : null}
      <p class="field-note">{words.sixHours(SIX_HOURS.says, SIX_HOURS.source, SIX_HOURS.caution)}</p>
    </Band>
  );
}

/** The bags that wait, at a bench at rest: one tap opens one. */
export function WaitingBags(props: {
  readonly load: () => Promise<readonly BagShown[]>;
  readonly bench: Bench;
  readonly clock: Clock;
}) {
  const { bench, clock } = props;
  const [bags, setBags] = useState<readonly BagShown[]>([]);
  useEffect(() => {
    void props.load().then(setBags);
  }, [bench.run.lastAct?.act]);
  const waiting = bags.filter(({ pieces, number }) => pieces > 0 && number !== undefined).slice(0, 4);
  if (waiting.length === 0) return null;
  const open = ({ number }: BagShown) =>
    number &&
    bench.take({
      ...{ text: number, carrier: "hand", symbology: "", via: "typed", device: "keyboard" },
      time: Date.now(),
    });
  return (
    <Band>
      <ListRows
        label={words.bags}
        rows={waiting.map((bag) => ({
          key: bag.id,
          main: bag.name,
          second: [words.waits(bag.pieces, bag.presumed), ...bag.events.map(({ name }) => name)].join(" · "),
          end: (
            <>
              {bag.since ? <Age since={bag.since} now={clock.now} name={bag.name} /> : null}
              <Button onPress={() => open(bag)}>{words.openBag(bag.name)}</Button>
            </>
          ),
        }))}
      />
    </Band>
  );
}

function Age(props: {
  readonly since: string;
  readonly now: number;
  readonly name: string;
  readonly large?: boolean;
}) {
  const minutes = Math.max(0, Math.floor((props.now - Date.parse(props.since)) / 60_000));
  const age = words.age(minutes);
  return (
    <p class={props.large ? "bag-age-large num" : "bag-age num"}>
      <span class="for-ears">{words.ageOf(age, props.name)}</span>
      <span aria-hidden="true">{age}</span>
    </p>
  );
}
