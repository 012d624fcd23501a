import type { OpenAPIHono } from "@hono/zod-openapi";
import { runAct } from "../../server/cases/run-act.ts";
import { startSession } from "../../server/cases/sessions.ts";
import type { AccountId, ActId, Uuid } from "../../server/domain/ids.ts";
import { ROLES, type Role } from "../../server/domain/register/account.ts";
import type { Instant } from "../../server/domain/time.ts";
import { createApp } from "../../server/http/app.ts";
import type { Route } from "../../server/http/define-route.ts";
import type { AppEnv, Services } from "../../server/http/services.ts";
import { sessionCookieName } from "../../server/http/session-cookie.ts";
import { openJobs } from "../../server/jobs/open-jobs.ts";
import { uuidV7 } from "../../server/ledger/uuid-v7.ts";
import type { TestDatabase } from "./test-database.ts";

const ORIGIN = "http://127.0.0.1:4410";

/** The whole application on a test database, reached without a socket, with somebody to sign in for each role. */
export interface TestApp {
  readonly app: OpenAPIHono<AppEnv>;
  readonly services: Services;
  readonly faults: unknown[];
  /** Sends a request as a browser on our own page would; `cookie` signs in. */
  send(method: string, path: string, given?: Sent): Promise<Response>;
  /** Opens an account of a role, signs it in and gives the cookie. */
  signedInAs(role: Role, strength?: "full" | "badge"): Promise<SignedIn>;
}
export interface Sent {
  readonly cookie?: string | undefined;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}
export interface SignedIn {
  readonly account: AccountId;
  readonly cookie: string;
}

/** Builds the application on a database; give routes to try the frame alone. */
export function testApp(db: TestDatabase, now: () => number, routes?: readonly Route[]): TestApp {
  const faults: unknown[] = [];
  const jobs = openJobs({
    ...{ db: db.app, databaseUrl: db.appUrl, now },
    threadFile: new URL("../../server/job-thread.ts", import.meta.url),
    onFault: (fault) => faults.push(fault),
  });
  const services: Services = {
    db: db.app,
    jobs,
    now,
    departmentId: "test",
    hosts: ["127.0.0.1", "localhost", "[::1]"],
    isHttps: false,
    onFault: (fault) => faults.push(fault),
  };
  const app = routes ? createApp(services, routes) : createApp(services);
  return {
    app,
    services,
    faults,
    async send(method, path, { cookie, body, headers } = {}) {
      return app.request(`${ORIGIN}${path}`, {
        method,
        headers: {
          ...(method === "GET" ? {} : { origin: ORIGIN, "content-type": "application/json" }),
          ...(cookie ? { cookie } : {}),
          ...headers,
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
    },
    async signedInAs(role, strength = "full") {
      const account = uuidV7(now()) as AccountId;
      await openTestAccount(services, account, role);
      const session = await startSession(services.db, account, "test device", strength, now());
      return { account, cookie: `${sessionCookieName(services)}=${session.token}` };
    },
  };
}

/** Signs in one account of every role. */
export async function oneOfEachRole(app: TestApp): Promise<ReadonlyMap<Role, SignedIn>> {
  const all = new Map<Role, SignedIn>();
  for (const role of ROLES) all.set(role, await app.signedInAs(role));
  return all;
}

async function openTestAccount(services: Services, account: AccountId, role: Role): Promise<void> {
  const now = services.now() as Instant;
  const written = await runAct(
    services.db,
    {
      name: "openAccount",
      rules: "exclusive",
      decide: async () => ({
        entries: [
          {
            subjectKind: "account",
            subject: account as Uuid,
            entry: { kind: "AccountOpened", account: { role } },
          },
        ],
      }),
    },
    { role },
    {
      id: uuidV7(now) as ActId,
      by: account,
      role,
      device: "test device",
      deviceSeq: 1,
      appBuild: "test",
      at: now,
      atOffsetMin: 0,
      sentAt: now,
    },
    now,
  );
  if ("refusals" in written) throw new Error(`No account: ${written.refusals[0]?.code}`);
}

/** Puts the envelope of an act around a command, as a device at the bench sends it now. */
export function anAct(app: TestApp, command: object): object {
  const now = app.services.now();
  const at = new Date(now).toISOString();
  return {
    ...{ id: uuidV7(now), device: "test device", deviceSeq: 1, appBuild: "test" },
    ...{ at, atOffsetMin: -300, sentAt: at, command },
  };
}
