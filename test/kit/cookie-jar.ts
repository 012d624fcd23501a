import { anAct, type TestApp } from "./test-app.ts";

/** A browser of one person: it keeps the cookies that it is given and sends them back. */
export class CookieJar {
  readonly #app: TestApp;
  readonly #kept = new Map<string, string>();

  constructor(app: TestApp, cookies: ReadonlyMap<string, string> = new Map()) {
    this.#app = app;
    for (const [name, value] of cookies) this.#kept.set(name, value);
  }

  cookies(): ReadonlyMap<string, string> {
    return this.#kept;
  }

  /** Another holder of the same cookies. */
  copy(): CookieJar {
    return new CookieJar(this.#app, this.#kept);
  }

  async send(method: string, path: string, body?: unknown): Promise<Response> {
    const cookie = [...this.#kept].map(([name, value]) => `${name}=${value}`).join("; ");
    const response = await this.#app.send(method, path, { cookie, body });
    for (const line of response.headers.getSetCookie()) this.#keep(line);
    return response;
  }

  /** Sends what must be answered well, and gives the answer. */
  async json(method: string, path: string, body?: unknown): Promise<Record<string, unknown>> {
    const response = await this.send(method, path, body);
    const answer = await response.json();
    if (response.status !== 200)
      throw new Error(`${path} answered ${response.status}: ${JSON.stringify(answer)}`);
    return answer;
  }

  sendAct(command: string, given: object): Promise<Response> {
    return this.send("POST", `/api/acts/${command}`, anAct(this.#app, given));
  }

  act(command: string, given: object): Promise<Record<string, unknown>> {
    return this.json("POST", `/api/acts/${command}`, anAct(this.#app, given));
  }

  signIn(signInName: string, passphrase: string): Promise<Response> {
    return this.send("POST", "/api/sign-in", { signInName, passphrase });
  }

  #keep(line: string): void {
    const [, name = "", value = ""] = /^([^=]+)=([^;]*)/.exec(line) ?? [];
    if (value === "" || /Max-Age=0\b/i.test(line)) this.#kept.delete(name);
    else this.#kept.set(name, value);
  }
}
