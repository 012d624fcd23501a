import type { PieceBrief } from "../piece-view.ts";
import type { MakersLabel } from "../pieces/label.ts";

/** Own judgement: what came from the factory together weighs more than any difference in age and wear. */
const NOT_ONE_FACTORY_SET = 1000;
/** A liner that was in this shell before is known to sit well in it. Own judgement. */
const NEVER_IN_THIS_SHELL = 300;
const MONTH_APART = 1;
/** Ten years is as long as gear may serve (facts 1: NFPA 1851 retirement); further apart, or not known, counts as that. */
const MOST_MONTHS = 120;
const WASH_APART = 2;
const MOST_WASHES = 60;

/**
 * Says how badly a layer suits a shell that it may go in: 0 is best, 1540 worst. Cut number and serial never prove
 * that two belong together; where they are equal they only make a pair preferred.
 */
export function fittingCost(shell: PieceBrief, layer: PieceBrief, wasHereBefore: boolean): number {
  const months = monthsApart(shell.label.madeOn, layer.label.madeOn);
  const washes = Math.min(Math.abs(shell.washes - layer.washes), MOST_WASHES);
  return (
    (isOneFactorySet(shell.label, layer.label) ? 0 : NOT_ONE_FACTORY_SET) +
    (wasHereBefore ? 0 : NEVER_IN_THIS_SHELL) +
    MONTH_APART * months +
    WASH_APART * washes
  );
}

function isOneFactorySet(shell: MakersLabel, layer: MakersLabel): boolean {
  if (!isEqual(shell.maker, layer.maker)) return false;
  return isEqual(shell.cutNumber, layer.cutNumber) || isEqual(shell.serial, layer.serial);
}

function isEqual(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && one.trim() !== "" && one.trim().toLowerCase() === other?.trim().toLowerCase();
}

function monthsApart(one: string | undefined, other: string | undefined): number {
  if (one === undefined || other === undefined) return MOST_MONTHS;
  return Math.min(Math.abs(monthOf(one) - monthOf(other)), MOST_MONTHS);
}

/** Both forms of a manufacture date begin with year and month. */
function monthOf(madeOn: string): number {
  return Number(madeOn.slice(0, 4)) * 12 + Number(madeOn.slice(5, 7));
}
