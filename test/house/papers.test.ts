import fs from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";

const ROOT = path.join(import.meta.dirname, "../..");
const TOP = /^(server|web|labels|db|test|compose\.yaml|package\.json|\.ci)(\/|$)/;

/** Every path that a paper names: in code, or as the target of a link or picture. */
function pathsIn(paper: string): string[] {
  const text = fs.readFileSync(path.join(ROOT, paper), "utf8");
  const named = [...text.matchAll(/`([^`\s]+)`|\]\(([^)\s]+)\)/g)].map(
    ([, code, target]) => code ?? target ?? "",
  );
  return [...new Set(named.filter((name) => TOP.test(name)))];
}

describe.each(["README.md", "DEVELOPERS.md"])("%s", (paper) => {
  test("names only paths that exist", () => {
    const paths = pathsIn(paper);
    expect(paths.length).toBeGreaterThan(5);
    expect(paths.filter((name) => !fs.existsSync(path.join(ROOT, name)))).toEqual([]);
  });
});

test("README names the scripts that package.json has", () => {
  const readme = fs.readFileSync(path.join(ROOT, "README.md"), "utf8");
  const { scripts } = JSON.parse(fs.readFileSync(path.join(ROOT, "package.json"), "utf8"));
  const called = [...readme.matchAll(/npm run ([a-z:]+)/g)].map(([, name]) => name ?? "");
  expect(called.filter((name) => !(name in scripts))).toEqual([]);
});
