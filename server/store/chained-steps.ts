import { type RawBuilder, sql } from "kysely";

/** Statements as parts of one, each of which waits for the one before: one round trip, as if sent one after the other. */
export interface ChainedSteps {
  /** What stands between `with` and the parts that follow. */
  readonly parts: RawBuilder<unknown>;
  /** A condition that holds, and that cannot be told before the last step is done. */
  readonly areDone: RawBuilder<boolean>;
}

export const NO_STEPS: ChainedSteps = { parts: sql``, areDone: sql`true` };

/** A statement that writes rows, before which the given condition is asked. */
export type Step = (areDone: RawBuilder<boolean>) => RawBuilder<unknown>;

/**
 * Chains statements. Parts of one statement run in an order of the database's choosing, unless one needs what another
 * gives: here each needs the number of rows that the one before wrote. They see the tables as they were before the
 * first of them, except that keys which one has freed are free for the next.
 */
export function chainSteps(steps: readonly Step[]): ChainedSteps {
  let areDone: RawBuilder<boolean> = NO_STEPS.areDone;
  const parts = steps.map((step, index) => {
    const name = sql.raw(`step_${index + 1}`);
    const part = sql`${name} as (${step(areDone)} returning 1), `;
    areDone = sql`(select count(*) from ${name}) >= 0`;
    return part;
  });
  return { parts: sql.join(parts, sql` `), areDone };
}
