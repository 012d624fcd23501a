import { setTimeout as sleep } from "node:timers/promises";
import { expect } from "vitest";
import type { ImportPreview } from "../../server/domain/intake/import-preview.ts";
import type { SignedIn, TestApp } from "./test-app.ts";
import { anAct } from "./test-app.ts";

/** A job as its route answers it. */
export interface SeenJob {
  readonly id: string;
  readonly state: string;
  readonly step: string;
  readonly reasons: readonly { readonly code: string; readonly why: string; readonly next: string }[];
}

/** An import as its route answers it. */
export interface SeenImport {
  readonly id: string;
  readonly preview?: ImportPreview;
  readonly job?: SeenJob;
  readonly broughtIn?: {
    readonly sha256: string;
    readonly by: string;
    readonly accepted: number;
    readonly parked: number;
    readonly act?: string;
  };
}

/** Somebody at a screen who brings in files. */
export interface ImportDesk {
  get<Answer>(path: string): Promise<Answer>;
  post(path: string, body: object): Promise<Response>;
  /** Sends a file and waits until it was read. */
  bring(what: string, content: string | Uint8Array, name?: string): Promise<SeenImport>;
  read(id: string, columns: Readonly<Record<string, number | null>>): Promise<SeenImport>;
  /** Accepts what the preview showed and waits for the end. */
  accept(seen: SeenImport, act?: object): Promise<SeenImport>;
  until(job: string): Promise<SeenJob>;
}

/** Sits somebody down to bring in files. */
export function importDesk(app: TestApp, person: SignedIn): ImportDesk {
  const { cookie } = person;
  const get = async <Answer>(path: string): Promise<Answer> => {
    const response = await app.send("GET", path, { cookie });
    expect([path, response.status]).toEqual([path, 200]);
    return (await response.json()) as Answer;
  };
  const post = (path: string, body: object) => app.send("POST", path, { cookie, body });
  const until = async (job: string): Promise<SeenJob> => {
    for (let round = 0; round < 1_200; round += 1) {
      const seen = await get<SeenJob>(`/api/jobs/${job}`);
      if (seen.state !== "waiting" && seen.state !== "running") return seen;
      await sleep(50);
    }
    throw new Error("The job did not end within a minute.");
  };
  const after = async (response: Response): Promise<SeenImport> => {
    const answer = (await response.json()) as { id?: string; about?: string; job?: string };
    expect([response.status, JSON.stringify(answer)]).toEqual([200, expect.any(String)]);
    if (answer.job) await until(answer.job);
    return get<SeenImport>(`/api/imports/${answer.id ?? answer.about}`);
  };
  return {
    ...{ get, post, until },
    async bring(what, content, name = "gear.csv") {
      const contentBase64 = Buffer.from(content).toString("base64");
      return after(await post(`/api/imports/${what}`, { name, contentBase64 }));
    },
    async read(id, columns) {
      return after(await post(`/api/imports/${id}/read`, { columns }));
    },
    async accept(seen, act = anAct(app, { digest: seen.preview?.digest ?? "" })) {
      return after(await post(`/api/imports/${seen.id}/accept`, act));
    },
  };
}
