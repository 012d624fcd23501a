import { expect, test } from "vitest";
import { cameraFault, faultFromError } from "./camera-fault.ts";

test.each([
  ["NotAllowedError", "permission refused"],
  ["SecurityError", "permission refused"],
  ["NotFoundError", "no camera"],
  ["OverconstrainedError", "no camera"],
  ["NotReadableError", "camera in use"],
  ["AbortError", "camera in use"],
] as const)("W3C Media Capture: %s means %s", (name, code) => {
  expect(faultFromError(name).code).toBe(code);
});

test("every fault says what, why and what next, and that one may scan or type on", () => {
  for (const code of [
    "insecure page",
    "no camera",
    "permission refused",
    "camera in use",
    "camera lost",
    "decoder not loaded",
  ] as const) {
    const { what, why, next } = cameraFault(code);
    for (const sentence of [what, why, next]) expect(sentence).toMatch(/^[A-Z].+\.$/);
    expect(next).toMatch(/typ(e|ing) the number/);
  }
});
