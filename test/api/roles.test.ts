import { beforeAll, describe, expect, it } from "vitest";
import type { Role } from "../../server/domain/register/account.ts";
import { ROLES } from "../../server/domain/register/account.ts";
import type { Access } from "../../server/http/access.ts";
import { ROUTES } from "../../server/http/all-routes.ts";
import { createApp } from "../../server/http/app.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { oneOfEachRole, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
let app: TestApp;
let people: ReadonlyMap<Role, SignedIn>;
let badge: SignedIn;

beforeAll(async () => {
  app = testApp(db, standingClock().now);
  people = await oneOfEachRole(app);
  badge = await app.signedInAs("program manager", "badge");
});

/** The routes as the router has them, with what their declarations say; a route that is declared nowhere fails here. */
function routesOfTheRouter() {
  const declared = new Map<string, { roles: Access; badgeMay: boolean }>();
  for (const { method, path, roles, badgeMay } of ROUTES) {
    const key = `${method.toUpperCase()} ${path.replaceAll(/\{(.+?)\}/g, ":$1")}`;
    declared.set(key, { roles, badgeMay: badgeMay !== undefined });
  }
  // Only the router is read here, before there is a database.
  const nothing = { db: undefined as never, jobs: undefined as never };
  const unopened = { ...nothing, now: () => 0, departmentId: "", hosts: [], isHttps: false };
  const known = createApp({ ...unopened, onFault: () => {} }).routes.filter(({ method }) => method !== "ALL");
  const keys = [...new Set(known.map(({ method, path }) => `${method} ${path}`))];
  return keys
    .filter((key) => key !== "GET /api/openapi.json")
    .map((key) => {
      const found = declared.get(key);
      if (!found) throw new Error(`${key} is on the router without saying who may use it.`);
      return { key, ...found };
    });
}

/** Asks a route with nothing useful in it: whoever may come in gets as far as what is wrong with the request. */
async function statusFor(key: string, cookie?: string): Promise<number> {
  const [method = "", path = ""] = key.split(" ");
  const response = await app.send(method, path.replaceAll(/:\w+/g, "none"), {
    cookie,
    ...(method === "GET" ? {} : { body: {} }),
  });
  return response.status;
}

const routes = routesOfTheRouter();
/** Without a session there is nothing to refuse in these: sign-in and links judge what they carry. */
const OPEN =
  /^(GET \/api\/health|GET \/api\/problems\/:code|POST \/api\/(sign-in|sign-out|links\/.*|bench\/change-person))$/;

describe("who may use which route", () => {
  it("reads more than forty routes from the router, the declared ones and no other", () => {
    expect(routes.length).toBe(ROUTES.length);
    expect(routes.length).toBeGreaterThan(40);
  });

  it("leaves only sign-in, links, the sign of life and the meaning of problems open to anyone", () => {
    expect(routes.filter(({ roles }) => roles === "anyone").map(({ key }) => key)).toEqual(
      routes.map(({ key }) => key).filter((key) => OPEN.test(key)),
    );
  });

  it.each(routes.filter(({ roles }) => roles !== "anyone"))(
    "$key: nobody without signing in",
    async ({ key }) => {
      expect(await statusFor(key)).toBe(401);
    },
  );

  describe.each(ROLES)("as %s", (role) => {
    it.each(routes.filter(({ roles }) => roles !== "anyone"))("$key", async ({ key, roles }) => {
      const status = await statusFor(key, people.get(role)?.cookie);
      if (typeof roles === "string" || roles.includes(role)) expect([401, 403, 500]).not.toContain(status);
      else expect(status).toBe(403);
    });
  });

  it.each(routes.filter(({ roles }) => roles !== "anyone"))(
    "$key with a bare badge only where the route says so",
    async ({ key, roles }) => {
      const status = await statusFor(key, badge.cookie);
      if (roles === "badge ok") expect([401, 403, 500]).not.toContain(status);
      else expect(status).toBe(403);
    },
  );
});
