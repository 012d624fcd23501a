import { drawCardsPdf } from "../../labels/draw/draw-cards.ts";
import type { Card } from "../../labels/layout/card-face.ts";
import type { CardMedia } from "../../labels/layout/card-pages.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import type { JobReason } from "../cases/job-record.ts";
import {
  actionCards,
  badges,
  type CardHolder,
  keepRunNumbers,
  memberCards,
  placeCards,
} from "../cases/print-record.ts";
import { runAct } from "../cases/run-act.ts";
import { drawCardsAct } from "../cases/tag-acts.ts";
import { ACTION_CARDS } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { JobEnd, JobOrder, JobSetting } from "./job-order.ts";
import { keepIfItReads, sayPrintRefusals } from "./keep-drawn.ts";
import { sayRefusals } from "./say-refusals.ts";

type DrawCards = Extract<JobOrder, { what: "draw cards" }>;

/**
 * Draws cards of places, members, badges and actions. Places and members that have no number get one first, as one
 * act; a badge is given by the program manager beforehand, since the old one then opens nothing.
 */
export async function drawCards(order: DrawCards, setting: JobSetting): Promise<JobEnd> {
  const { db, now, onProgress } = setting;
  const { places, members } = order.cards;
  onProgress({ step: "reserving numbers", done: 0, total: 0 });
  if (places.length + members.length > 0) {
    const drawn = await runAct(db, drawCardsAct, { places, members }, order.envelope, now());
    const isRefused = "refusals" in drawn && drawn.refusals.some(({ code }) => code !== "nothing-to-do");
    if (isRefused) return sayRefusals(drawn.refusals, setting);
  }
  const found = await cardsOf(order, setting);
  if (found.reasons.length > 0) return { reasons: found.reasons };
  const numbers = found.cards.map(({ card }) => card.number);
  onProgress({ step: "drawing", done: 0, total: numbers.length });
  const run = await drawCardsPdf({
    cards: found.cards.map(({ card }) => card),
    media: order.choice.stock as CardMedia,
    printer: PRINTERS[order.choice.dpi],
  });
  const nameOf = new Map(found.cards.map(({ card, name }) => [card.number, name]));
  if ("refusals" in run) return sayPrintRefusals(run.refusals, (number) => nameOf.get(number));
  await keepRunNumbers(db, order.about, numbers);
  for (const [at, { bytes, start, end }] of run.files.entries()) {
    const file = { n: at + 1, bytes, numbers: numbers.slice(start, end) };
    const reason = await keepIfItReads(setting, order.about, file);
    if (reason) return { reasons: [reason] };
    onProgress({ step: "drawing", done: end, total: numbers.length });
  }
  return { done: true };
}

interface NamedCard {
  readonly card: Card;
  readonly name: string;
}

async function cardsOf(
  { cards: wanted }: DrawCards,
  { db }: JobSetting,
): Promise<{ readonly cards: readonly NamedCard[]; readonly reasons: readonly JobReason[] }> {
  const cards: NamedCard[] = [];
  const reasons: JobReason[] = [];
  const add = (holders: readonly CardHolder[], card: (number: TagNumber, name: string) => Card) => {
    for (const { name, number } of holders) {
      if (number) cards.push({ card: card(number, name), name });
      else reasons.push(withoutNumber(name));
    }
  };
  add(await placeCards(db, wanted.places), (number, place) => ({ card: "place", place, number }));
  add(await memberCards(db, wanted.members), (number) => ({ card: "member", number }));
  add(await badges(db, wanted.accounts), (number) => ({ card: "badge", number }));
  if (wanted.actions) {
    const numbers = await actionCards(db);
    for (const action of ACTION_CARDS) {
      const number = numbers[action];
      if (number) cards.push({ card: { card: "action", action, number }, name: action });
    }
  }
  return { cards, reasons };
}

function withoutNumber(name: string): JobReason {
  return {
    code: "no-badge",
    what: `Not printed: ${name}.`,
    why: "There is no badge yet.",
    next: "Give one under People, then print it.",
  };
}
