import type { CardRun } from "../../labels/draw/draw-cards.ts";
import { drawCardsPdf } from "../../labels/draw/draw-cards.ts";
import { drawTagsPdf, type PrintRun, type TagRun } from "../../labels/draw/draw-tags.ts";
import { spareTagContent, type TagContent, tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import { drawTagNumber, type TagNumber, withCheckSymbols } from "../../server/domain/tags/tag-number.ts";
import { parseMadeOn } from "../../server/domain/time.ts";

/** A number from its ten symbols. */
export function aNumber(ten: string): TagNumber {
  const number = withCheckSymbols(ten);
  if (number === undefined) throw new Error(`${ten} are not ten symbols of the alphabet`);
  return number;
}

/** Numbers that are the same in every run of the tests. */
export function someNumbers(count: number): readonly TagNumber[] {
  let state = 42;
  const pickBelow = (n: number) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * n);
  };
  return Array.from({ length: count }, () => drawTagNumber(pickBelow));
}

/** One tag of each look: shell, liner, DRD, a piece that is no layer, a spare, and letters beyond Latin. */
export function tagsOfEachLook(): readonly TagContent[] {
  const madeOn = parseMadeOn("2022-03-14");
  const made = madeOn ? { madeOn } : {};
  const of = (ten: string, name: string, layer: string | undefined, modelName: string, size: string) =>
    tagContentOfPiece(aNumber(ten), {
      kind: { name, family: "structural", ...(layer ? { layer } : {}) },
      modelName,
      linerCode: "LK-2",
      size,
      ...made,
    });
  return [
    of("C7K3F92CXT", "Coat shell", "shell", "K7", "46 32 R"),
    of("KD0RT429TH", "Coat liner", "liner", "K7", "46 32 R"),
    of("J06N3H4K3V", "DRD", "drd", "K7", "one size"),
    of("F123456789", "Boots", undefined, "Strömgård Ł2", "10½"),
    of("PRTVXCDFGH", "Hood", undefined, "Ρόδος Жар", "L"),
    spareTagContent(aNumber("X000000000")),
  ];
}

export async function drawnTags(run: TagRun): Promise<readonly Uint8Array[]> {
  return bytesOf(await drawTagsPdf(run));
}

export async function drawnCards(run: CardRun): Promise<readonly Uint8Array[]> {
  return bytesOf(await drawCardsPdf(run));
}

function bytesOf(run: PrintRun): readonly Uint8Array[] {
  if ("refusals" in run) throw new Error(`not printed: ${JSON.stringify(run.refusals)}`);
  return run.files.map((file) => file.bytes);
}
