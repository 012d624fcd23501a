import { describe, expect, it } from "vitest";
import { createClient } from "./client.ts";
import { openDevice, type Shelf } from "./device.ts";
import { uuidV7 } from "./uuid-v7.ts";
import { waitingList } from "./waiting.ts";

function aShelf(): Shelf & { kept: Map<string, string> } {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
  };
}

interface Sent {
  readonly path: string;
  readonly method: string | undefined;
  readonly body: Record<string, unknown>;
}

/** A client against answers in turn; "down" is a network that fails. */
function aClient(answers: readonly (Response | "down")[]) {
  const sent: Sent[] = [];
  const pauses: number[] = [];
  const left = [...answers];
  const client = createClient({
    device: openDevice(aShelf(), 0),
    appBuild: "b1",
    now: () => Date.parse("2026-03-02T08:00:00Z"),
    sleep: async (ms) => void pauses.push(ms),
    fetch: (async (path: string, init?: RequestInit) => {
      sent.push({ path, method: init?.method, body: JSON.parse(String(init?.body ?? "{}")) });
      const answer = left.shift() ?? "down";
      if (answer === "down") throw new TypeError("fetch failed");
      return answer;
    }) as typeof fetch,
  });
  return { client, sent, pauses };
}

const problem = (status: number, code: string) =>
  new Response(JSON.stringify({ type: "/p", title: "t", detail: "d", status, code }), {
    status,
    headers: { "content-type": "application/problem+json" },
  });
const good = (value: unknown) => Response.json(value);
const closing = { account: "01950000-0000-7000-8000-000000000001" };

describe("an act that nothing answers", () => {
  it("is sent again with the same id and number, after growing pauses, until it is answered", async () => {
    const { client, sent, pauses } = aClient(["down", problem(503, "database-away"), good({ position: 7 })]);
    const act = client.newAct("closeAccount", closing);
    expect(await client.sendAct(act)).toEqual({ ok: true, answer: { position: 7 } });
    expect(pauses).toEqual([300, 1000]);
    expect(new Set(sent.map(({ body }) => `${body["id"]} ${body["deviceSeq"]}`)).size).toBe(1);
    expect(sent[0]?.path).toBe("/api/acts/closeAccount");
  });

  it("is given back as unsure in the end, so that the same one can be sent later", async () => {
    const { client, sent } = aClient([]);
    const answer = await client.sendAct(client.newAct("closeAccount", closing));
    expect(answer).toMatchObject({ ok: false, isUnsure: true, problem: { status: 0, code: "no-network" } });
    expect(sent).toHaveLength(4);
  });

  it("is not sent again when it was refused", async () => {
    const { client, sent } = aClient([problem(409, "held")]);
    const answer = await client.sendAct(client.newAct("closeAccount", closing));
    expect(answer).toMatchObject({ ok: false, isUnsure: false, problem: { code: "held" } });
    expect(sent).toHaveLength(1);
  });

  it("says who sent it by the device alone, never by the person", async () => {
    const { client } = aClient([]);
    const act = client.newAct("closeAccount", closing);
    expect(Object.keys(act).sort()).toEqual(
      ["name", "command", "appBuild", "id", "device", "deviceSeq", "at", "atOffsetMin", "sentAt"].sort(),
    );
    expect(act.at).toBe("2026-03-02T08:00:00.000Z");
  });
});

describe("an answer", () => {
  it("that is no problem document becomes one, with what to do next", async () => {
    const { client } = aClient([
      new Response("<h1>Bad gateway</h1>", { status: 502 }),
      new Response("{", { status: 200, headers: { "content-type": "application/json" } }),
    ]);
    expect(await client.get("/api/me")).toMatchObject({
      ok: false,
      problem: { code: "not-understood", status: 502 },
    });
    expect(await client.get("/api/me")).toMatchObject({
      ok: false,
      problem: { code: "not-understood", status: 200 },
    });
  });

  it("without content is a value too", async () => {
    const { client, sent } = aClient([new Response(null, { status: 204 })]);
    expect(await client.post("/api/sign-out", { body: {} })).toEqual({ ok: true, answer: undefined });
    expect(sent[0]).toMatchObject({ path: "/api/sign-out", method: "POST", body: {} });
  });
});

describe("the address that is asked", () => {
  it("carries what varies in one piece, whatever was scanned", async () => {
    const { client, sent } = aClient([good({ token: "t" })]);
    const account = "a/b?c#d e";
    await client.post("/api/accounts/{account}/link", { params: { account }, body: { purpose: "join" } });
    expect(sent[0]?.path).toBe("/api/accounts/a%2Fb%3Fc%23d%20e/link");
  });
});

describe("the device", () => {
  it("keeps its id and counts on, over pages", () => {
    const shelf = aShelf();
    const first = openDevice(shelf, 1);
    expect([first.takeSeq(), first.takeSeq()]).toEqual([1, 2]);
    const second = openDevice(shelf, 2);
    expect([second.id, second.takeSeq()]).toEqual([first.id, 3]);
  });

  it("works for one page where nothing may be kept", () => {
    const refuse = () => {
      throw new DOMException("denied", "SecurityError");
    };
    const device = openDevice({ getItem: refuse, setItem: refuse }, 1);
    expect([device.takeSeq(), device.takeSeq()]).toEqual([1, 2]);
  });
});

describe("an id", () => {
  it("is the example of RFC 9562, appendix A.6", () => {
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(uuidV7(Date.parse("2022-02-22T19:22:22Z"), random)).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  });
});

describe("what is waited for", () => {
  it("is not shown when the answer comes within 400 ms, and is taken off when it comes", async () => {
    const list = waitingList();
    const heard: string[] = [];
    list.listen((waiting) => heard.push(waiting.map(({ what, stage }) => `${what} ${stage}`).join()));
    await list.during("a tag", async () => 1);
    expect(heard).toEqual([""]);
    await list.during("a piece", () => new Promise((done) => setTimeout(done, 450)));
    expect(heard).toEqual(["", "a piece asking", ""]);
  });
});
