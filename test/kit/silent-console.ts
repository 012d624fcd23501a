import { afterAll, afterEach } from "vitest";

const METHODS = ["debug", "error", "info", "log", "trace", "warn"] as const;
const said: string[] = [];

for (const method of METHODS) {
  console[method] = (...words: unknown[]) => {
    said.push(`console.${method}: ${words.map(String).join(" ")}`);
  };
}

/** What a test writes to the console is either a debugging aid left behind or a warning that nobody reads. */
function failOnWords(): void {
  if (said.length === 0) return;
  throw new Error(`A test wrote to the console.\n${said.splice(0).join("\n")}`);
}

afterEach(failOnWords);
afterAll(failOnWords);
