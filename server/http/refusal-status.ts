import type { Refusal, RefusalCode } from "../domain/refusal.ts";

/**
 * The one table from refusal to status. 404: what it names is not there. 409: the record stands against it. 403: not
 * this person's to do. 422: it could not be so at any time. Source of the meanings: RFC 9110 section 15.5.
 */
export const REFUSAL_STATUS: Readonly<Record<RefusalCode, 403 | 404 | 409 | 422>> = {
  "unknown-subject": 404,
  changed: 409,
  retired: 409,
  held: 409,
  soiled: 409,
  "label-not-read": 409,
  "fitted-elsewhere": 409,
  "left-inside": 409,
  "not-fitted-there": 409,
  "place-in-shell-taken": 409,
  "not-a-shell": 422,
  "not-a-layer": 422,
  labels: 409,
  "layer-missing": 409,
  "already-there": 409,
  "in-the-future": 422,
  "does-not-fit-the-record": 409,
  "serial-taken": 409,
  "name-taken": 409,
  "code-bound": 409,
  tag: 409,
  "position-taken": 409,
  "unknown-position": 422,
  "hold-not-standing": 409,
  "not-yours-to-lift": 403,
  "cannot-correct": 409,
  "repeated-id": 409,
  closed: 409,
  "not-empty": 409,
  "last-manager": 409,
  "ends-before-it-begins": 422,
  "not-a-bag": 422,
  "holds-nothing": 409,
  "unknown-contaminant": 404,
  "seen-at-event": 403,
  "not-on-the-list": 409,
  "reason-needed": 422,
  "without-outcome": 409,
  "nothing-to-trace": 409,
  role: 403,
  "washed-apart": 409,
  "shells-and-liners": 409,
  "not-so-cleaned": 409,
  "load-too-large": 409,
  "over-limits": 409,
  "to-a-specialist": 409,
  "shares-no-load": 409,
  "no-programme": 409,
  "machine-there": 409,
  "machine-faulty": 409,
  "load-running": 409,
  "load-over": 409,
  "ended-early": 409,
  "length-unknown": 422,
  "moved-between": 409,
  "not-there": 409,
  "nothing-to-do": 422,
};

/** Which status speaks when several reasons stand together: first what only another person can change. */
const STRONGEST_FIRST = [403, 404, 422, 409] as const;

/** Gives the status of a refused act from all its reasons. */
export function statusOfRefusals(refusals: readonly Refusal[]): number {
  const statuses = new Set<number>(refusals.map(({ code }) => REFUSAL_STATUS[code]));
  return STRONGEST_FIRST.find((status) => statuses.has(status)) ?? 409;
}
