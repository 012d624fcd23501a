/**
 * Does the work of one plan that the benchmark sends, sends back what it came to, and ends. `isEnding` turns true when
 * the benchmark wants no more. What fails ends the process, which fails the benchmark.
 */
export async function hand<Plan, Result>(
  work: (plan: Plan, isEnding: () => boolean) => Promise<Result>,
): Promise<void> {
  let isEnding = false;
  const plan = await new Promise<Plan>((resolve) => {
    process.once("message", (message) => resolve(message as Plan));
  });
  process.once("message", () => {
    isEnding = true;
  });
  // Nobody is left to tell the result to.
  process.once("disconnect", () => process.exit(1));
  const result = await work(plan, () => isEnding);
  process.removeAllListeners("disconnect");
  process.send?.(result, () => process.disconnect());
}
