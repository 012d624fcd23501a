import type { Instant } from "../time.ts";
import type { MachineCheck } from "./machine.ts";

/** Within which a machine may have run wrong: from its last good check to the next one; an end that is absent is open. */
export interface DoubtWindow {
  readonly from?: Instant;
  readonly to?: Instant;
}

/**
 * Gives the time in doubt around a moment at which a machine was found faulty: it may have been wrong since the last
 * check before that found it in order, or since ever; and stays so until a check after it finds it in order.
 */
export function doubtWindow(checks: readonly Omit<MachineCheck, "version">[], foundAt: Instant): DoubtWindow {
  const good = checks.filter(({ outcome }) => outcome === "in order").map(({ at }) => at);
  const before = good.filter((at) => at < foundAt);
  const after = good.filter((at) => at > foundAt);
  return {
    ...(before.length > 0 ? { from: Math.max(...before) as Instant } : {}),
    ...(after.length > 0 ? { to: Math.min(...after) as Instant } : {}),
  };
}
