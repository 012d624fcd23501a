/** Why an act was not written, all reasons at once, and what can be written instead. */

import { useEffect, useRef } from "preact/hooks";
import type { WayOut } from "../../../server/domain/custody/late-record.ts";
import { Button } from "../../look/buttons.tsx";
import { Band } from "../../look/page.tsx";
import { Reasons } from "../../look/reasons.tsx";
import { numberWord, sentence, type Words } from "../../look/words.ts";
import { goTo } from "../use-place.ts";
import type { RefusalWords, Shown } from "./bench-run.ts";
import { whereOf } from "./mode.ts";
import type { Bench } from "./use-bench.ts";

/** Every reason, and under them what can be written instead, by one tap. */
export function RefusedReasons(props: {
  readonly shown: Extract<Shown, { what: "refused" }>;
  readonly say: Words;
  readonly bench: Bench;
}) {
  const { shown, say, bench } = props;
  const place = useRef<HTMLDivElement>(null);
  // Whoever had scrolled down to a choice sees why nothing was written.
  useEffect(() => place.current?.scrollIntoView({ block: "nearest" }), [shown]);
  const count = shown.reasons.length;
  const offers = offersOf(shown.reasons);
  const piece = shown.reasons.find((reason) => reason.offers?.includes("correction"))?.piece;
  const foundHere = () => {
    const { earlier: _, ...now } = bench.choices;
    bench.choose(now);
    bench.step({ kind: "found here" });
  };
  return (
    <>
      <div class="refused" ref={place}>
        <Reasons
          id="reasons"
          head={`${shown.verb} ${sentence(numberWord(count))} ${count === 1 ? say.reason : say.reasons}.`}
          nextWord={say.next}
          reasons={shown.reasons.map(({ what, why, next, isHold }, index) => ({
            key: String(index),
            mark: isHold ? "hold" : "differs",
            what,
            why,
            next,
          }))}
        />
      </div>
      {offers.length > 0 ? (
        <Band>
          <p class="offers-head">{say.insteadYouCan}</p>
          <div class="button-row">
            {offers.includes("there and back") ? (
              <Button weight="quiet" onPress={() => bench.step({ kind: "there and back" })}>
                {say.thereAndBack}
              </Button>
            ) : null}
            {offers.includes("found here") && whereOf(bench.run.mode) ? (
              <Button weight="quiet" onPress={foundHere}>
                {say.foundHereNow}
              </Button>
            ) : null}
            {piece ? (
              <Button weight="quiet" onPress={() => goTo(`/pieces/${piece}`)}>
                {say.correctOnTrail}
              </Button>
            ) : null}
          </div>
          <p>{offers.includes("there and back") ? say.thereAndBackSays : null}</p>
        </Band>
      ) : null}
    </>
  );
}

/** What is offered for every reason alike: an act is written whole or not at all. */
function offersOf(reasons: readonly RefusalWords[]): readonly WayOut[] {
  return (reasons[0]?.offers ?? []).filter((offer) => reasons.every(({ offers }) => offers?.includes(offer)));
}
