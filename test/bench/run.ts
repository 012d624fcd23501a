import fs from "node:fs";
import { parseArgs } from "node:util";
import { type BenchFolder, type BenchHouse, findFolder, openHouse } from "./bench-house.ts";
import { isHeld, type Measured, writeTable } from "./figures.ts";
import { saidLoad, sayMachine } from "./machine.ts";
import { measureBeside } from "./measure-beside.ts";
import { measureLists } from "./measure-lists.ts";
import { measureLookUp } from "./measure-look-up.ts";
import { measureMatching } from "./measure-matching.ts";
import { measureMoves } from "./measure-moves.ts";
import { measureScreen } from "./measure-screen.ts";
import { measureScript } from "./measure-script.ts";
import { measureStart } from "./measure-start.ts";
import { measureTags } from "./measure-tags.ts";
import { measureTrace } from "./measure-trace.ts";
import { measureVerify } from "./measure-verify.ts";

interface Size {
  readonly sets: number;
  /** How long one thing is measured. */
  readonly seconds: number;
  readonly rows: number;
  readonly tags: number;
}
const FULL: Size = { sets: 35_556, seconds: 10, rows: 20_000, tags: 10_000 };
const SMALL: Size = { sets: 3_334, seconds: 3, rows: 2_000, tags: 1_000 };
const HELP = `npm run bench -- [--small] [--only NAME] [--in FOLDER]
  --small      30,000 pieces and 300,000 entries instead of 320,000 and 3,000,000
  --only NAME  one part alone: script, tags, matching, start, look-up, screen, lists, moves, beside, trace, verify
  --in FOLDER  keeps the department in this folder, and uses the one that stands there; what was written to it stays
It tells each figure beside its target; a target that is missed does not fail it, and what breaks does.`;

/** In this order: what fills the ledger comes after what is measured on the generated one alone; verify reads it all. */
function partsOf({ seconds, rows, tags }: Size) {
  return {
    alone: { script: async () => measureScript(), tags: measureTags, matching: measureMatching },
    onFolder: { start: measureStart },
    onHouse: {
      "look-up": (house: BenchHouse) => measureLookUp(house, seconds),
      screen: (house: BenchHouse) => measureScreen(house),
      lists: (house: BenchHouse) => measureLists(house, seconds / 5),
      moves: (house: BenchHouse) => measureMoves(house, seconds),
      beside: (house: BenchHouse) => measureBeside(house, { rows, tags }),
      trace: measureTrace,
      verify: measureVerify,
    },
  };
}

const { values } = parseArgs({
  options: {
    ...{ small: { type: "boolean" }, help: { type: "boolean" } },
    ...{ only: { type: "string" }, in: { type: "string" } },
  },
});
const only = values.only;
const { alone, onFolder, onHouse } = partsOf(values.small ? SMALL : FULL);
const known = [alone, onFolder, onHouse].flatMap((parts) => Object.keys(parts));
if (values.help || (only !== undefined && !known.includes(only))) {
  console.log(HELP);
  process.exit(values.help ? 0 : 2);
}
const told: Measured[] = [];
const begun = performance.now();
await runParts(alone, undefined);
if (only === undefined || only in onFolder || only in onHouse)
  await runOnDepartment(values.small ? SMALL : FULL);
const figures = told.flatMap((part) => part.figures);
const missed = figures.filter((figure) => !isHeld(figure));
const wanted = figures.filter(({ target }) => target);
const minutes = ((performance.now() - begun) / 60_000).toFixed(1);
console.log(
  `${wanted.length - missed.length} of ${wanted.length} targets were held, in ${minutes} min; ${saidLoad()}.`,
);

async function runParts<Given>(
  parts: Readonly<Record<string, (given: Given) => Promise<Measured>>>,
  given: Given,
): Promise<void> {
  for (const [name, measure] of Object.entries(parts)) {
    if (only !== undefined && only !== name) continue;
    const measured = await measure(given);
    told.push(measured);
    console.log([`\n${measured.part}`, ...writeTable(measured.figures)].join("\n  "));
  }
}

async function runOnDepartment({ sets }: Size): Promise<void> {
  const from = performance.now();
  const folder: BenchFolder = await findFolder(sets, values.in);
  const { pieces, entries, acts } = folder.register;
  const seconds = Math.round((performance.now() - from) / 1_000);
  console.log(
    `\nA department of ${pieces} pieces, ${entries} entries in ${acts} acts is there after ${seconds} s.`,
  );
  try {
    await runParts(onFolder, folder);
    const house = await openHouse(folder);
    try {
      console.log((await sayMachine(house)).join("\n"));
      await runParts(onHouse, house);
    } finally {
      await house.close();
    }
  } finally {
    if (values.in === undefined) fs.rmSync(folder.dataDir, { recursive: true, force: true });
  }
}
