/** A trace as it is drawn: a fire, a vehicle, a bag, a washer, a rack and a wearer, with idle weeks folded. */
import { Sheet } from "../page.tsx";
import { TracePicture } from "../trace-picture.tsx";
import type { PictureState, PictureStay, PictureThread } from "../trace-picture-layout.ts";
import { BenchFrame } from "./bench-frame.tsx";
import { ODILE, W } from "./sample-data.ts";

const HOUR = 3_600_000;
const FIRE = Date.parse("2026-11-12T02:00:00Z");

const LANES = [
  { key: "engine", name: "Engine 4", sort: "vehicle", edge: "shared" },
  { key: "bag", name: "Bag 214", sort: "bag", edge: "closed" },
  { key: "isolation", name: "Isolation rack", sort: "rack", edge: "shared" },
  { key: "load", name: "Washer 1", sort: "load, accepted", edge: "closed" },
  { key: "rack", name: "Rack B2", sort: "rack", edge: "shared" },
  { key: "wearer", name: "Petra Oxholm", sort: "wearer, not followed", edge: "apart" },
] as const;

/** Stays one after another: lane, hours after the fire at which it begins, what the piece is from then on. */
function staysOf(steps: readonly (readonly [string, number, PictureState])[]): readonly PictureStay[] {
  return steps.map(([lane, from, state], at) => {
    const next = steps[at + 1];
    const stay = { lane, from: FIRE + from * HOUR, state };
    return next ? { ...stay, to: FIRE + next[1] * HOUR } : stay;
  });
}

function roots(garment: string, count: number): readonly PictureThread[] {
  const steps = [
    ["engine", 0, "was there"],
    ["bag", 2, "was there"],
    ["isolation", 13, "was there"],
    ["load", 31, "was there"],
    ["rack", 32, "not reached"],
  ] as const;
  return Array.from({ length: count }, (_, at) => ({
    ...{ key: `${garment} ${at}`, garment, stays: staysOf(steps), cleanings: [FIRE + 32 * HOUR] },
  }));
}

function contact(rank: number, at: number, steps: Parameters<typeof staysOf>[0]): PictureThread {
  const knot = { rank, at: FIRE + at * HOUR };
  return { key: `contact ${rank}`, garment: `contact ${rank}`, knot, stays: staysOf(steps), cleanings: [] };
}

const STAYS_THERE: PictureThread = {
  ...{ key: "hood", garment: "hood", cleanings: [] },
  stays: staysOf([
    ["engine", 0, "was there"],
    ["rack", 2.5, "was there"],
    ["wearer", 102, "was there"],
  ]),
};

const CONTACTS = [
  contact(1, 0.5, [
    ["engine", -1, "not reached"],
    ["engine", 0.5, "possibly reached"],
  ]),
  contact(2, 2.5, [
    ["rack", -1, "not reached"],
    ["rack", 2.5, "possibly reached"],
    ["wearer", 102, "possibly reached"],
  ]),
  contact(3, 2.5, [
    ["rack", -1, "not reached"],
    ["rack", 2.5, "possibly reached"],
  ]),
  contact(4, 14, [
    ["rack", -1, "not reached"],
    ["isolation", 14, "possibly reached"],
  ]),
];

const sayTick = (at: number) =>
  new Date(at).toLocaleString("en-US", {
    ...{ timeZone: "UTC", weekday: "short", day: "numeric", month: "short" },
    ...{ hour: "2-digit", minute: "2-digit", hour12: false },
  });
const sayLength = (ms: number) =>
  ms < 48 * HOUR ? `${Math.round(ms / HOUR)} h` : `${Math.round(ms / HOUR / 24)} d`;

/** Few threads stand by themselves; with `many` there are more than 30 and each garment is one. */
export function TracePage(props: { readonly many: boolean }) {
  const exposed = props.many
    ? Array.from({ length: 10 }, (_, at) => roots(`coat ${at}`, 3)).flat()
    : roots("coat", 3);
  const threads = [...exposed, STAYS_THERE, ...CONTACTS];
  const told = new Map(
    threads.map(({ key, knot }) => [
      key,
      {
        says: knot ? `${knot.rank}. Coat shell, ${key}, was possibly reached.` : `${key} was there.`,
        href: "#trace",
      },
    ]),
  );
  return (
    <BenchFrame
      tape={{ verb: W.lookUp, second: W.lookUpSecond, writes: false, slim: true, person: ODILE }}
      hem={{ hint: W.scanOrType, phoneScan: W.scanATag }}
    >
      <Sheet>
        <h2 class="t-head">Mill Street fire</h2>
        <TracePicture
          {...{ lanes: LANES, threads, told, sayTick, sayLength }}
          from={FIRE - HOUR}
          to={FIRE + 150 * HOUR}
          name="Where the pieces of the trace of the Mill Street fire were."
        />
      </Sheet>
    </BenchFrame>
  );
}
