import { beforeAll, describe, expect, it } from "vitest";
import { firstManagerLink, setUp } from "../../server/cases/set-up.ts";
import type { Role } from "../../server/domain/register/account.ts";
import { ACTION_CARDS } from "../../server/domain/register/policy.ts";
import { createApp } from "../../server/http/app.ts";
import { CookieJar } from "../kit/cookie-jar.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { anAct, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const clock = standingClock();
const PASSPHRASE = "a long walk to the cage";
let app: TestApp;
/** The first program manager's browser. */
let manager: CookieJar;

beforeAll(async () => {
  app = testApp(db, clock.now);
  await setUp(db.app, { nowMs: clock.now(), appBuild: "test", timeZone: "America/Chicago" });
  manager = new CookieJar(app);
});

const secondsOn = (seconds: number) => clock.advanceMs(seconds * 1000);

/** Opens an account, gives its badge where asked, and lets the person join in a browser of their own. */
async function join(role: Role, signInName: string, pin?: string) {
  const account = crypto.randomUUID();
  await manager.act("openAccount", { account, role, name: `Name of ${signInName}` });
  const link = await manager.json("POST", `/api/accounts/${account}/link`, { purpose: "join" });
  const browser = new CookieJar(app);
  const body = { token: link["token"], signInName, passphrase: PASSPHRASE, ...(pin ? { pin } : {}) };
  const joined = await browser.send("POST", "/api/links/join", body);
  expect(joined.status).toBe(200);
  return { account, browser, token: String(link["token"]) };
}

async function badgeOf(account: string): Promise<string> {
  await manager.act("giveBadge", { account });
  const { accounts } = await manager.json("GET", "/api/accounts");
  return (accounts as { id: string; badge: string }[]).find(({ id }) => id === account)?.badge ?? "";
}

describe("the first start", () => {
  it("makes the first program manager by a link that works once, then makes no more such links", async () => {
    const link = await firstManagerLink(db.app, clock.now());
    const token = link?.token;
    expect(await manager.json("POST", "/api/links/look", { token })).toMatchObject({
      purpose: "first manager",
    });
    const body = { token, name: "Odile Verrill", signInName: "Odile", passphrase: PASSPHRASE };
    const made = await manager.json("POST", "/api/links/first-manager", body);
    expect(made).toMatchObject({ name: "Odile Verrill", role: "program manager", strength: "full" });
    expect(await manager.json("GET", "/api/me")).toEqual(made);
    const again = await new CookieJar(app).send("POST", "/api/links/first-manager", {
      ...body,
      signInName: "other",
    });
    expect([again.status, (await again.json()).code]).toEqual([403, "link-spent"]);
    expect(await firstManagerLink(db.app, clock.now())).toBeUndefined();
  });

  it("runs again, and twice at once, without a second kind, card or setting", async () => {
    const start = { nowMs: clock.now(), appBuild: "test", timeZone: "America/Chicago" };
    const before = await db.app.selectFrom("act").select("id").execute();
    await Promise.all([setUp(db.app, start), setUp(db.app, start)]);
    expect(await db.app.selectFrom("act").select("id").execute()).toEqual(before);
    const actions = await db.app.selectFrom("numbered").selectAll().where("names", "=", "action").execute();
    expect(actions).toHaveLength(ACTION_CARDS.length);
  });
});

describe("one-time links", () => {
  it("are kept as a hash, never as they are", async () => {
    const { token } = await join("technician", "inez");
    const rows = await db.app.selectFrom("one_time_link").selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(token);
    expect(rows.some((row) => row.token_hash.equals(Buffer.from(token)))).toBe(false);
  });

  it("open for one of two who use them at the same moment", async () => {
    const account = crypto.randomUUID();
    await manager.act("openAccount", { account, role: "reader", name: "Petra Oxholm" });
    const { token } = await manager.json("POST", `/api/accounts/${account}/link`, { purpose: "join" });
    const both = await Promise.all(
      ["petra", "mallory"].map((signInName) =>
        new CookieJar(app).send("POST", "/api/links/join", { token, signInName, passphrase: PASSPHRASE }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 403]);
  });

  it("end after 24 hours, and when a newer one is made", async () => {
    const account = crypto.randomUUID();
    await manager.act("openAccount", { account, role: "reader", name: "Tobin Achterberg" });
    const path = `/api/accounts/${account}/link`;
    const [first, second] = [
      await manager.json("POST", path, { purpose: "join" }),
      await manager.json("POST", path, { purpose: "join" }),
    ];
    const look = async (token: unknown) =>
      (await new CookieJar(app).send("POST", "/api/links/look", { token })).status;
    expect([await look(first["token"]), await look(second["token"])]).toEqual([403, 200]);
    secondsOn(24 * 3600);
    expect(await look(second["token"])).toBe(403);
    await manager.signIn("odile", PASSPHRASE);
  });

  it("still open when the sign-in name was taken", async () => {
    const account = crypto.randomUUID();
    await manager.act("openAccount", { account, role: "reader", name: "Mirela Ferro" });
    const { token } = await manager.json("POST", `/api/accounts/${account}/link`, { purpose: "join" });
    const use = (signInName: string) =>
      new CookieJar(app).send("POST", "/api/links/join", { token, signInName, passphrase: PASSPHRASE });
    expect([(await use("INEZ")).status, (await use("mirela")).status]).toEqual([409, 200]);
  });

  it("that give a new passphrase sign the old one out everywhere", async () => {
    const { account, browser } = await join("technician", "corwin");
    const { token } = await manager.json("POST", `/api/accounts/${account}/link`, {
      purpose: "new passphrase",
    });
    const elsewhere = new CookieJar(app);
    const body = { token, passphrase: "another walk to the cage" };
    expect((await elsewhere.send("POST", "/api/links/new-passphrase", body)).status).toBe(200);
    expect((await browser.send("GET", "/api/me")).status).toBe(401);
    expect((await browser.signIn("corwin", PASSPHRASE)).status).toBe(401);
    expect((await browser.signIn("corwin", body.passphrase)).status).toBe(200);
  });
});

describe("signing in", () => {
  it("leaves a cookie that scripts and other sites cannot use, named for the department", async () => {
    const browser = new CookieJar(app);
    const response = await browser.signIn("Inez ", PASSPHRASE);
    const [session] = response.headers.getSetCookie();
    expect(session).toMatch(
      /^layertrail-test=[\w-]{43}; Max-Age=604800; Path=\/; HttpOnly; SameSite=Strict$/,
    );
    const rows = await db.app.selectFrom("session").select("token_hash").execute();
    const token = /=([\w-]{43});/.exec(session ?? "")?.[1] ?? "";
    expect(rows.some((row) => row.token_hash.toString("base64url") === token)).toBe(false);
  });

  it("leaves a cookie for https alone where people come by https", async () => {
    const secure = createApp({ ...app.services, isHttps: true });
    const response = await secure.request("https://127.0.0.1/api/sign-in", {
      method: "POST",
      headers: { origin: "https://127.0.0.1", "content-type": "application/json" },
      body: JSON.stringify({ signInName: "inez", passphrase: PASSPHRASE }),
    });
    expect(
      response.headers.getSetCookie().map((line) => /^__Host-layertrail-test.*Secure/.test(line)),
    ).toEqual([true, true]);
  });

  it("gives one answer for an unknown name and for a wrong passphrase", async () => {
    const answers = await Promise.all(
      [
        ["inez", "not her passphrase"],
        ["nobody", PASSPHRASE],
        ["no body at all", PASSPHRASE],
      ].map(async ([name, passphrase]) =>
        (await new CookieJar(app).signIn(name ?? "", passphrase ?? "")).json(),
      ),
    );
    expect(answers[0]).toMatchObject({ status: 401, code: "sign-in-refused" });
    expect(answers[1]).toEqual(answers[0]);
    expect(answers[2]).toEqual(answers[0]);
  });

  it("pauses after five wrong tries, longer after each more, and the pause is kept in the database", async () => {
    await join("technician", "tries");
    const tryIt = async (passphrase: string) => {
      const response = await new CookieJar(testApp(db, clock.now)).signIn("tries", passphrase);
      return [response.status, response.headers.get("retry-after")];
    };
    for (let count = 1; count <= 5; count += 1) expect((await tryIt("wrong again, sorry"))[0]).toBe(401);
    expect(await tryIt(PASSPHRASE)).toEqual([429, "60"]);
    secondsOn(61);
    expect((await tryIt("wrong again, sorry"))[0]).toBe(401);
    expect(await tryIt(PASSPHRASE)).toEqual([429, "120"]);
    secondsOn(121);
    expect((await tryIt(PASSPHRASE))[0]).toBe(200);
    expect((await tryIt("wrong again, sorry"))[0]).toBe(401);
    expect((await tryIt(PASSPHRASE))[0]).toBe(200);
  });

  it("judges no more than five of many tries at once", async () => {
    await join("technician", "many");
    const all = await Promise.all(
      Array.from({ length: 9 }, () => new CookieJar(app).signIn("many", "wrong, all at once")),
    );
    expect(all.map(({ status }) => status).sort()).toEqual([401, 401, 401, 401, 401, 429, 429, 429, 429]);
  });

  it("ends on sign-out, on the server and not only in the browser", async () => {
    const browser = new CookieJar(app);
    await browser.signIn("inez", PASSPHRASE);
    const stolen = browser.copy();
    expect((await browser.send("POST", "/api/sign-out", {})).status).toBe(204);
    expect((await stolen.send("GET", "/api/me")).status).toBe(401);
  });

  it("lapses after a shift without a request, and after a week at the latest", async () => {
    const browser = new CookieJar(app);
    await browser.signIn("inez", PASSPHRASE);
    for (let hours = 0; hours < 160; hours += 10) {
      secondsOn(10 * 3600);
      if (hours < 158) expect((await browser.send("GET", "/api/me")).status).toBe(200);
    }
    secondsOn(9 * 3600);
    expect((await browser.send("GET", "/api/me")).status).toBe(401);
    await browser.signIn("inez", PASSPHRASE);
    secondsOn(14 * 3600 + 1);
    expect((await browser.send("GET", "/api/me")).status).toBe(401);
    await manager.signIn("odile", PASSPHRASE);
  });

  it("takes a new passphrase and PIN only with the one that holds", async () => {
    const { browser } = await join("technician", "self");
    const change = (passphrase: string) =>
      browser.send("POST", "/api/me/secrets", {
        passphrase,
        newPassphrase: "one more walk there",
        newPin: "2718",
      });
    expect((await change("wrong passphrase")).status).toBe(401);
    expect((await change(PASSPHRASE)).status).toBe(204);
    expect((await browser.send("GET", "/api/me")).status).toBe(401);
    expect((await browser.signIn("self", "one more walk there")).status).toBe(200);
  });
});

describe("a closed account", () => {
  it("is out at once, on every server, and cannot sign in again", async () => {
    const { account, browser } = await join("technician", "closed");
    const other = new CookieJar(testApp(db, clock.now), browser.cookies());
    expect((await other.send("GET", "/api/me")).status).toBe(200);
    await manager.act("closeAccount", { account });
    expect((await other.send("GET", "/api/me")).status).toBe(401);
    expect((await browser.send("GET", "/api/me")).status).toBe(401);
    expect((await browser.signIn("closed", PASSPHRASE)).status).toBe(401);
  });

  it("cannot be the last program manager's", async () => {
    const { account } = await manager.json("GET", "/api/me");
    const response = await manager.sendAct("closeAccount", { account });
    const problem = await response.json();
    expect([response.status, problem.code, problem.refusals]).toEqual([
      409,
      "last-manager",
      [{ code: "last-manager", subject: account }],
    ]);
    expect(problem.detail).toBe(
      "Odile Verrill stays program manager. Nobody else could let people in. Next: make somebody else program manager first.",
    );
  });
});

describe("a person's name", () => {
  it("is put right or taken away without touching the ledger", async () => {
    const { account, browser } = await join("technician", "renamed");
    const before = await db.app.selectFrom("entry").select("hash").execute();
    const rename = (name: string | null) => manager.send("PUT", `/api/accounts/${account}/name`, { name });
    expect((await rename("Inez Calloway-Bask")).status).toBe(204);
    expect(await browser.json("GET", "/api/me")).toMatchObject({ name: "Inez Calloway-Bask" });
    expect((await rename(null)).status).toBe(204);
    expect(await browser.json("GET", "/api/me")).toMatchObject({ name: "" });
    expect(await db.app.selectFrom("entry").select("hash").execute()).toEqual(before);
    const nobody = await manager.send("PUT", `/api/accounts/${crypto.randomUUID()}/name`, { name: "x" });
    expect(nobody.status).toBe(404);
  });
});

describe("at a shared bench", () => {
  it("a badge and its PIN change the person, and the first is signed out", async () => {
    const bench = (await join("technician", "bench-one")).browser;
    const second = await join("inspector", "bench-two", "2718");
    const badge = await badgeOf(second.account);
    const before = bench.copy();
    const changed = await bench.json("POST", "/api/bench/change-person", { badge, pin: "2718" });
    expect(changed).toMatchObject({ account: second.account, role: "inspector", strength: "full" });
    expect((await before.send("GET", "/api/me")).status).toBe(401);
  });

  it("a badge opens nothing where nobody signed in with a passphrase before", async () => {
    const { account } = await join("technician", "afar", "2718");
    const badge = await badgeOf(account);
    const response = await new CookieJar(app).send("POST", "/api/bench/change-person", {
      badge,
      pin: "2718",
    });
    expect([response.status, (await response.json()).code]).toEqual([403, "unknown-bench"]);
  });

  it("wrong PINs pause one account at one bench, and no other", async () => {
    const { account, browser: bench } = await join("technician", "digits", "2718");
    const other = (await join("technician", "digits-two", "3141")).browser;
    const badge = await badgeOf(account);
    const change = async (at: CookieJar, pin: string) =>
      (await at.send("POST", "/api/bench/change-person", { badge, pin })).status;
    for (let count = 1; count <= 5; count += 1) expect(await change(bench, "0001")).toBe(401);
    expect(await change(bench, "2718")).toBe(429);
    expect(await change(other, "2718")).toBe(200);
    expect((await new CookieJar(app).signIn("digits", PASSPHRASE)).status).toBe(200);
  });

  it("a bare badge may turn in, and nothing else", async () => {
    const { account, browser: bench } = await join("member", "night");
    const badge = await badgeOf(account);
    expect(await bench.json("POST", "/api/bench/change-person", { badge })).toMatchObject({
      strength: "badge",
    });
    const pieces = [{ piece: crypto.randomUUID(), evidence: "scanned" }];
    const to = { kind: "place", id: crypto.randomUUID() };
    const turnIn = await bench.sendAct("movePieces", { pieces, to, purpose: "turn in", soiled: true });
    expect((await turnIn.json()).refusals[0]).toMatchObject({ code: "unknown-subject" });
    const issue = await bench.sendAct("movePieces", { pieces, to, purpose: "transfer" });
    expect([issue.status, (await issue.json()).code]).toEqual([403, "role-may-not"]);
    const garbled = await bench.sendAct("movePieces", { pieces: "all" });
    expect(garbled.status).toBe(403);
    expect((await bench.send("POST", "/api/me/secrets", { passphrase: PASSPHRASE })).status).toBe(403);
    secondsOn(601);
    expect((await bench.send("GET", "/api/me")).status).toBe(401);
  });

  it("a badge that was given anew no longer opens with the old number", async () => {
    const { account, browser: bench } = await join("technician", "lost-badge", "2718");
    const old = await badgeOf(account);
    const fresh = await badgeOf(account);
    const change = async (badge: string) =>
      (await bench.send("POST", "/api/bench/change-person", { badge, pin: "2718" })).status;
    expect([await change(old), await change(fresh)]).toEqual([401, 200]);
  });
});

describe("an act of the program manager", () => {
  it("sent twice opens one account, and answers the same", async () => {
    const act = anAct(app, { account: crypto.randomUUID(), role: "reader", name: "Sent Twice" });
    const [first, second] = [
      await manager.json("POST", "/api/acts/openAccount", act),
      await manager.json("POST", "/api/acts/openAccount", act),
    ];
    expect(second).toEqual(first);
  });

  it("keeps names of people out of the ledger", async () => {
    const { rows } = await db.appPool.query("select convert_from(bytes, 'UTF8') as body from entry");
    expect(rows.length).toBeGreaterThan(30);
    expect(rows.map(({ body }) => body).join()).not.toMatch(/Verrill|Name of|Oxholm/);
  });
});
