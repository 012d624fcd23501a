/** A trail for a lay reader: lead, hold, where it has been, what was done. */
import { Button } from "../buttons.tsx";
import { HoldRibbon } from "../hold-ribbon.tsx";
import { Sheet } from "../page.tsx";
import { StayTimeline } from "../stay-timeline.tsx";
import { TagFigure, TagNumber } from "../tag-figure.tsx";
import { TrailEntry, TrailMonth } from "../trail-entry.tsx";
import { TrailTitle } from "../trail-title.tsx";
import { BenchFrame } from "./bench-frame.tsx";
import { LINER_MODULES, LINER_TAG, nothing, ODILE, SHELL_TAG, W } from "./sample-data.ts";

const day = (text: string) => Date.parse(`${text}T12:00:00Z`);

const LANES = [
  { key: "member", name: "With a member" },
  { key: "cage", name: "In the cage" },
  { key: "wash", name: "Wash and dry" },
  { key: "provider", name: "At a provider" },
  { key: "gap", name: W.notRecorded, unrecorded: true },
];

const STAYS = [
  stay("cage", "2025-03-04", "2025-03-19"),
  stay("member", "2025-03-19", "2025-07-07", "Mirela Ferro"),
  stay("wash", "2025-07-07", "2025-07-11"),
  stay("cage", "2025-07-11", "2025-07-20"),
  stay("member", "2025-07-20", "2025-12-03", "Mirela Ferro"),
  stay("wash", "2025-12-03", "2025-12-07"),
  stay("cage", "2025-12-07", "2026-01-15"),
  stay("member", "2026-01-15", "2026-06-14", "Mirela Ferro"),
  stay("gap", "2026-06-14", "2026-07-02", "18 days"),
  stay("cage", "2026-07-02", "2026-08-10", "Rack C2"),
  stay("provider", "2026-08-10", "2026-09-01", "Saltmarsh Textile Care"),
  stay("cage", "2026-09-01", "2026-09-16"),
  stay("member", "2026-09-16", "2026-11-12", "Mirela Ferro"),
  stay("cage", "2026-11-12", "2026-11-17"),
  stay("wash", "2026-11-17", "2026-11-20"),
  stay("cage", "2026-11-20"),
];

function stay(lane: string, from: string, to?: string, label?: string) {
  return { key: `${lane} ${from}`, lane, from: day(from), to: to ? day(to) : undefined, label };
}

const TICKS = [
  ["2025-03-01", "Mar 2025"],
  ["2025-06-01", "Jun"],
  ["2025-09-01", "Sep"],
  ["2025-12-01", "Dec"],
  ["2026-03-01", "Mar 2026"],
  ["2026-06-01", "Jun"],
  ["2026-09-01", "Sep"],
].map(([at = "", label = ""]) => ({ at: day(at), label }));

export function TrailPage() {
  return (
    <BenchFrame
      tape={{ verb: W.lookUp, second: W.lookUpSecond, writes: false, slim: true, person: ODILE }}
      hem={{ hint: W.scanOrType, phoneScan: W.scanATag }}
    >
      <Sheet>
        <TrailTitle
          title="Trail of a coat liner"
          tag={<TagFigure number={LINER_TAG} modules={LINER_MODULES} name={`Tag ${LINER_TAG}`} />}
        >
          Made by Tarnholt in August 2023: model K7, liner LK-3, size 44 32 R. It came to Harrow County on 4
          March 2025. Today it lies on Rack C1 in the gear cage. 31 entries, none changed since it was written
          (checked today, 10:15).
        </TrailTitle>
      </Sheet>
      <HoldRibbon head="On hold since today, 10:14." page>
        It differs from coat shell <TagNumber number={SHELL_TAG} /> in liner code and size. An inspector lifts
        it.
      </HoldRibbon>
      <Sheet>
        <h2 class="t-head">{W.whereItHasBeen}</h2>
        <StayTimeline
          lanes={LANES}
          stays={STAYS}
          ticks={TICKS}
          start={day("2025-03-01")}
          now={day("2026-11-24")}
          name="Where this coat liner has been since March 2025. The entries below say the same."
          nowLabel="Rack C1, now"
          held
        />
        <div class="trail-bar">
          <h2 class="t-head">{W.whatWasDone}</h2>
          <div class="trail-bar-buttons">
            <Button weight="quiet" onPress={nothing}>
              {W.oldestFirst}
            </Button>
            <Button keyHint="P" onPress={nothing}>
              {W.printTrail}
            </Button>
          </div>
        </div>
        <Entries />
      </Sheet>
    </BenchFrame>
  );
}

const INEZ_SCANNED = { who: "Inez Calloway, technician", how: "scanned, entry 30" };

function Entries() {
  return (
    <>
      <TrailMonth head="November 2026">
        <TrailEntry
          day="Tue 24"
          time="10:14"
          mark="hold"
          verb="Put on hold: differs."
          {...INEZ_SCANNED}
          how="scanned, entry 31"
        >
          It was scanned with coat shell <TagNumber number={SHELL_TAG} />. That shell takes LK-2, 46 32 R.
          This liner is LK-3, 44 32 R.
        </TrailEntry>
        <TrailEntry day="Fri 20" time="09:41" mark="entry" verb="Moved" {...INEZ_SCANNED}>
          from Dryer 2 to Rack C1. Dry, no finding.
        </TrailEntry>
        <TrailEntry
          day="Thu 19"
          time="10:30"
          mark="entry"
          verb="Washed"
          {...INEZ_SCANNED}
          how="scanned, entry 29"
        >
          in load 132, Washer 1, with three other liners.
        </TrailEntry>
        <TrailEntry
          day="Mon 16"
          time="18:20"
          mark="late"
          markSays={W.writtenLater}
          verb="Returned"
          aside="Written down on Thu 19 Nov, 08:05, two and a half days later."
          who="Tobin Achterberg, technician"
          how="typed, entry 28"
        >
          by Mirela Ferro, Station 1, soiled, to the Isolation rack.
        </TrailEntry>
      </TrailMonth>
      <TrailMonth head="September 2026">
        <TrailEntry
          day="Wed 2"
          time="14:10"
          mark="correction"
          markSays={W.correction}
          verb="Corrected"
          who="Odile Verrill, program manager"
          how="typed, entry 25"
        >
          entry 24. It said Rack C2; the liner was put on Rack C1. Both entries stay.
        </TrailEntry>
        <TrailEntry
          day="Tue 1"
          time="11:30"
          mark="entry"
          verb="Moved"
          aside="Corrected the next day: it was Rack C1."
          {...INEZ_SCANNED}
          how="scanned, entry 24"
        >
          from Saltmarsh Textile Care to Rack C2.
        </TrailEntry>
      </TrailMonth>
      <TrailMonth head="June and July 2026">
        <TrailEntry
          day="Thu 2 Jul"
          time="07:55"
          mark="entry"
          verb="Found"
          {...INEZ_SCANNED}
          how="scanned, entry 21"
        >
          on Rack C2 at a count of the cage.
        </TrailEntry>
        <TrailEntry day="14 Jun to 2 Jul" mark="gap" verb="Not recorded." who="no entry">
          Nobody wrote down who had it for 18 days. A trace lists this gap as “cannot exclude”.
        </TrailEntry>
      </TrailMonth>
    </>
  );
}
