import { z } from "@hono/zod-openapi";
import { describe, expect, it } from "vitest";
import { defineRoute } from "../../server/http/define-route.ts";
import { CONTENT_SECURITY_POLICY } from "../../server/http/security-headers.ts";
import { id, instant } from "../../server/http/wire.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const clock = standingClock();

const routes = [
  defineRoute(
    {
      method: "post",
      path: "/api/try/{id}",
      roles: ["technician"],
      summary: "Try",
      params: z.object({ id: id() }),
      query: z.object({ on: z.string().min(3) }),
      body: z.object({ at: instant, inner: z.object({ count: z.int() }) }),
      answer: z.object({ at: z.number() }),
      bodyLimitBytes: 2_000,
    },
    async ({ body }) => ({ at: body.at }),
  ),
  defineRoute({ method: "get", path: "/api/break", roles: "anyone", summary: "Break" }, async () => {
    throw new Error("a secret of the server");
  }),
] as const;
const frame = () => testApp(db, clock.now, routes);
const good = { at: "2026-03-02T09:00:00+01:00", inner: { count: 1 } };
const path = "/api/try/01950000-0000-7000-8000-000000000001?on=bench";

async function problemOf(response: Response) {
  expect(response.headers.get("content-type")).toBe("application/problem+json");
  const body = (await response.json()) as Record<string, unknown>;
  expect(body).toMatchObject({
    type: expect.stringMatching(/^\/api\/problems\//),
    title: expect.any(String),
    detail: expect.any(String),
    status: response.status,
  });
  return body;
}

describe("the frame around every route", () => {
  it("answers a good request, with instants as the program has them", async () => {
    const app = frame();
    const { cookie } = await app.signedInAs("technician");
    const response = await app.send("POST", path, { cookie, body: good });
    expect([response.status, await response.json()]).toEqual([
      200,
      { at: Date.parse("2026-03-02T08:00:00Z") },
    ]);
  });

  it("lists every fault of path, query and body at once, each with its path", async () => {
    const app = frame();
    const { cookie } = await app.signedInAs("technician");
    const body = { at: "yesterday", inner: { count: 1.5 } };
    const response = await app.send("POST", "/api/try/7?on=b", { cookie, body });
    const problem = await problemOf(response);
    expect(problem).toMatchObject({ status: 422, code: "does-not-fit" });
    const faults = problem["faults"] as { in: string; path: string }[];
    expect(faults.map((fault) => `${fault.in} ${fault.path}`)).toEqual([
      "params id",
      "query on",
      "body at",
      "body inner.count",
    ]);
  });

  it.each([
    ["a body that is no JSON", { headers: {}, raw: "{" }, 400, "malformed-json"],
    [
      "a body over the limit",
      { headers: {}, raw: JSON.stringify({ pad: "x".repeat(3_000) }) },
      413,
      "too-large",
    ],
    ["another media type", { headers: { "content-type": "text/plain" }, raw: "{}" }, 415, "not-json"],
    [
      "another site's origin",
      { headers: { origin: "http://elsewhere.example" }, raw: "{}" },
      403,
      "foreign-origin",
    ],
    [
      "an origin of another port",
      { headers: { origin: "http://127.0.0.1:9" }, raw: "{}" },
      403,
      "foreign-origin",
    ],
    ["an unknown host", { headers: { host: "layertrail.example" }, raw: "{}" }, 421, "unknown-host"],
  ])("refuses %s as a problem (RFC 9457)", async (_, { headers, raw }, status, code) => {
    const app = frame();
    const { cookie } = await app.signedInAs("technician");
    const own = { origin: "http://127.0.0.1:4410", "content-type": "application/json", cookie };
    const request = { method: "POST", headers: { ...own, ...headers }, body: raw };
    const response = await app.app.request(`http://127.0.0.1:4410${path}`, request);
    expect(await problemOf(response)).toMatchObject({ status, code });
    expect(response.headers.get("content-security-policy")).toBe(CONTENT_SECURITY_POLICY);
  });

  it("refuses an unsafe request without an Origin", async () => {
    const app = frame();
    const response = await app.app.request(`http://127.0.0.1:4410${path}`, { method: "POST", body: "{}" });
    expect(await problemOf(response)).toMatchObject({ status: 403, code: "foreign-origin" });
  });

  it("answers an unknown address with 404, and another method with 405 and what is allowed", async () => {
    const app = frame();
    expect(await problemOf(await app.send("GET", "/api/nothing"))).toMatchObject({ status: 404 });
    expect(await problemOf(await app.send("GET", "/nothing.css"))).toMatchObject({ status: 404 });
    const response = await app.send("GET", "/api/try/7");
    expect(await problemOf(response)).toMatchObject({ status: 405 });
    expect(response.headers.get("allow")).toBe("POST");
  });

  it("says at the address of a problem's type what it means (RFC 9457, section 3.1.1)", async () => {
    const app = testApp(db, clock.now);
    const { type } = (await (await app.send("GET", "/api/nothing")).json()) as { type: string };
    const meaning = await app.send("GET", type);
    expect(await meaning.json()).toEqual({ type, title: "There is nothing here.", status: 404 });
    expect((await app.send("GET", "/api/problems/none")).status).toBe(404);
  });

  it("keeps what a fault says to itself, and tells the server", async () => {
    const app = frame();
    const response = await app.send("GET", "/api/break");
    const text = await response.clone().text();
    expect(await problemOf(response)).toMatchObject({ status: 500, code: "fault" });
    expect(text).not.toMatch(/secret|at .*\.ts/);
    expect(app.faults).toHaveLength(1);
  });
});
