import type { Context } from "hono";
import type { Db } from "../cases/database-handle.ts";
import type { Session } from "../cases/sessions.ts";
import type { Jobs } from "../jobs/open-jobs.ts";

/** What the composition root hands to the web application. */
export interface Services {
  readonly db: Db;
  /** Long work, in threads of its own. */
  readonly jobs: Jobs;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Names the data folder or department: part of the cookie's name, so that two servers on one machine keep apart. */
  readonly departmentId: string;
  /** Host names that are ours, without a port: `127.0.0.1`, `[::1]`, `localhost`, or what the department set. */
  readonly hosts: readonly string[];
  /** Whether browsers reach us by https, ourselves or through the proxy before us. */
  readonly isHttps: boolean;
  /** The built screens; left out where only the interface is served. */
  readonly webDist?: string;
  /** Told of faults that answered 500. */
  readonly onFault: (fault: unknown) => void;
}

export interface AppEnv {
  Variables: { session?: Session; sessionToken?: string };
}
export type AppContext = Context<AppEnv>;
