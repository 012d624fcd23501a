import type { ActCommands, ActEnvelopeOnWire, Api, WrittenActOnWire } from "../../server/http/app-type.ts";
import { type Answer, NO_NETWORK, noNetwork, readAnswer, type Trouble } from "./answer.ts";
import type { Device } from "./device.ts";
import { uuidV7 } from "./uuid-v7.ts";
import { type WaitingListener, waitingList } from "./waiting.ts";

type Gets = Api["get"];
type Posts = Api["post"];
type Puts = Api["put"];
export type CommandName = keyof ActCommands;

/** The parts of a request that a route takes; parts that it does not take are left out. */
type PartsOf<Wire, Names extends string> = {
  readonly [Name in keyof Wire & Names as [Wire[Name]] extends [undefined] ? never : Name]: Wire[Name];
};
type GetParts<Path extends keyof Gets> = PartsOf<Gets[Path], "params" | "query">;
type PostParts<Path extends keyof Posts> = PartsOf<Posts[Path], "params" | "query" | "body">;
type PutParts<Path extends keyof Puts> = PartsOf<Puts[Path], "params" | "query" | "body">;
/** A route that takes nothing may be asked without parts. */
type Rest<Parts> = keyof Parts extends never
  ? [parts?: Parts, options?: AskOptions]
  : [parts: Parts, options?: AskOptions];

export interface AskOptions {
  readonly signal?: AbortSignal;
  /** What is asked for, as the screen says it while it waits: "the piece". */
  readonly what?: string;
}

/** An act as it is sent, kept so that it can be sent again with the same id. */
export interface ActToSend<Name extends CommandName = CommandName> extends ActEnvelopeOnWire {
  readonly name: Name;
  readonly command: ActCommands[Name];
}
export type ActAnswer =
  | { readonly ok: true; readonly answer: WrittenActOnWire }
  | { readonly ok: false; readonly problem: Trouble; readonly isUnsure: boolean };

export interface ClientOptions {
  readonly device: Device;
  readonly appBuild: string;
  readonly fetch?: typeof fetch;
  readonly now?: () => number;
  /** Pauses before an act is sent again, when nothing answered. */
  readonly retryAfterMs?: readonly number[];
  readonly sleep?: (ms: number) => Promise<void>;
}

export interface Client {
  get<Path extends keyof Gets>(
    path: Path,
    ...rest: Rest<GetParts<Path>>
  ): Promise<Answer<Gets[Path]["answer"]>>;
  post<Path extends keyof Posts>(
    path: Path,
    ...rest: Rest<PostParts<Path>>
  ): Promise<Answer<Posts[Path]["answer"]>>;
  put<Path extends keyof Puts>(
    path: Path,
    ...rest: Rest<PutParts<Path>>
  ): Promise<Answer<Puts[Path]["answer"]>>;
  /** Makes an act: its id is drawn now, so that however often it is sent it is written once. */
  newAct<Name extends CommandName>(name: Name, command: ActCommands[Name], at?: number): ActToSend<Name>;
  /** Makes what stands around the command of long work that ends in an act: it is posted to a route of its own. */
  newOrder<Command>(command: Command): ActEnvelopeOnWire & { readonly command: Command };
  /**
   * Sends an act, and sends it again with the same id while nothing answers. `isUnsure` says that it may or may not
   * have been written: keep it, and send the same one again.
   */
  sendAct(act: ActToSend): Promise<ActAnswer>;
  listenToWaiting(listener: WaitingListener): () => void;
}

const RETRY_AFTER_MS = [300, 1_000, 3_000] as const;
const sleepFor = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

/** Makes the one client of the page. It knows no framework: screens wrap what it answers. */
export function createClient(options: ClientOptions): Client {
  const { device, appBuild, now = Date.now, retryAfterMs = RETRY_AFTER_MS, sleep = sleepFor } = options;
  const ask = options.fetch ?? ((input, init) => fetch(input, init));
  const waiting = waitingList();

  async function send<Value>(method: "GET" | "POST" | "PUT", path: string, parts: AnyParts, how: AskOptions) {
    const { body } = parts;
    const init: RequestInit = {
      method,
      credentials: "same-origin",
      ...(how.signal ? { signal: how.signal } : {}),
      ...(method === "GET"
        ? {}
        : { headers: { "content-type": "application/json" }, body: JSON.stringify(body ?? {}) }),
    };
    return waiting.during(how.what ?? "an answer", async (): Promise<Answer<Value>> => {
      try {
        return await readAnswer<Value>(await ask(addressOf(path, parts), init));
      } catch (failure) {
        if (how.signal?.aborted) throw failure;
        return { ok: false, problem: noNetwork() };
      }
    });
  }

  function envelope(at: number): ActEnvelopeOnWire {
    const sent = new Date(at);
    return {
      ...{ appBuild, id: uuidV7(now()), device: device.id, deviceSeq: device.takeSeq() },
      at: sent.toISOString(),
      // JavaScript counts what must be added to local time; acts hold what must be added to UTC.
      atOffsetMin: -sent.getTimezoneOffset(),
      sentAt: new Date(now()).toISOString(),
    };
  }

  return {
    get: (path, ...[parts = {}, how = {}]) => send("GET", path, parts, how),
    post: (path, ...[parts = {}, how = {}]) => send("POST", path, parts, how),
    put: (path, ...[parts = {}, how = {}]) => send("PUT", path, parts, how),
    newAct: (name, command, at = now()) => ({ name, command, ...envelope(at) }),
    newOrder: (command) => ({ command, ...envelope(now()) }),
    async sendAct({ name, ...act }) {
      for (let round = 0; ; round += 1) {
        const body = { ...act, sentAt: new Date(now()).toISOString() };
        const answer = await send<WrittenActOnWire>(
          "POST",
          `/api/acts/${name}`,
          { body },
          { what: "the act" },
        );
        if (answer.ok) return answer;
        const isUnsure = answer.problem.code === NO_NETWORK || answer.problem.status >= 500;
        const pause = retryAfterMs[round];
        if (!isUnsure || pause === undefined) return { ...answer, isUnsure };
        await sleep(pause);
      }
    },
    listenToWaiting: waiting.listen,
  };
}

interface AnyParts {
  readonly params?: Readonly<Record<string, unknown>>;
  readonly query?: Readonly<Record<string, unknown>>;
  readonly body?: unknown;
}

/** Puts the parts into the address: `/api/pieces/{id}` and a query without what is undefined. */
function addressOf(path: string, { params = {}, query = {} }: AnyParts): string {
  const filled = path.replaceAll(/\{(.+?)\}/g, (_, name: string) => encodeURIComponent(String(params[name])));
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) if (value !== undefined) asked.set(name, String(value));
  return asked.size > 0 ? `${filled}?${asked}` : filled;
}
