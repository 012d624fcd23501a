import { describe, expect, it } from "vitest";
import { parseConfig } from "./config.ts";

describe("the settings", () => {
  it("listen on loopback at 4180 with the database that comes along when nothing is said", () => {
    const config = parseConfig({ PORT: "", NODE_ENV: "production" });
    expect(config).toMatchObject({ port: 4180, host: undefined, databaseUrl: undefined, tls: undefined });
    expect(config.dataDir).toMatch(/data$/);
  });

  it("give the demo a data folder of its own", () => {
    expect(parseConfig({ LAYERTRAIL_DEMO: "1" }).dataDir).toMatch(/data-demo$/);
    expect(() => parseConfig({ LAYERTRAIL_DEMO: "1", DATABASE_URL: "postgresql://app@db/gear" })).toThrow(
      /of its own/,
    );
  });

  it("open to the network only with TLS or behind a proxy that has it", () => {
    const open = { HOST: "0.0.0.0", PUBLIC_ORIGIN: "https://gear.example.org" };
    expect(() => parseConfig(open)).toThrow(/HOST=0\.0\.0\.0 needs TLS_CERT and TLS_KEY, or BEHIND_PROXY=1/);
    expect(parseConfig({ ...open, BEHIND_PROXY: "1" }).isBehindProxy).toBe(true);
    expect(parseConfig({ ...open, TLS_CERT: "c.pem", TLS_KEY: "k.pem" }).tls).toEqual({
      certFile: "c.pem",
      keyFile: "k.pem",
    });
    expect(parseConfig({ HOST: "127.0.0.1" }).host).toBe("127.0.0.1");
  });

  it("say all that is wrong in one line", () => {
    const wrong = {
      PORT: "http",
      DATABASE_URL: "mysql://x",
      BEHIND_PROXY: "yes",
      PUBLIC_ORIGIN: "gear.example.org/x",
    };
    const said = (): unknown => parseConfig(wrong);
    for (const name of Object.keys(wrong)) expect(said).toThrow(name);
    expect(said).toThrow(/^[^\n]*$/);
    expect(() => parseConfig({ BEHIND_PROXY: "1", TLS_KEY: "k.pem" })).toThrow(/TLS_CERT and.*PUBLIC_ORIGIN/);
  });

  it.each(["65536", "-1", "4180 ", "0x10"])("refuse %j as a port", (port) => {
    expect(() => parseConfig({ PORT: port })).toThrow(/PORT must be a port number/);
  });
});
