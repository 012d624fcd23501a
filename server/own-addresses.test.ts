import { expect, test } from "vitest";
import { isHttps, ownHosts, printedAddresses } from "./own-addresses.ts";

const quiet = { host: undefined, publicOrigin: undefined, tls: undefined };
const tls = { certFile: "c.pem", keyFile: "k.pem" };

test("the printed address is localhost only where both IP versions are ours", () => {
  expect(printedAddresses(quiet, 4180, true)).toEqual(["http://localhost:4180"]);
  expect(printedAddresses(quiet, 4180, false)).toEqual(["http://127.0.0.1:4180"]);
  expect(printedAddresses({ ...quiet, host: "::1" }, 80, false)).toEqual(["http://[::1]"]);
});

test("an open server prints an address of this machine first, then the one that people use", () => {
  const open = { host: "0.0.0.0", publicOrigin: "https://gear.example.org", tls };
  expect(printedAddresses(open, 443, false)).toEqual(["https://localhost", "https://gear.example.org"]);
  expect(isHttps(open)).toBe(true);
});

test("our names are loopback, the address that we listen on and the public one, and no other", () => {
  const behindProxy = { host: "10.1.2.3", publicOrigin: "https://gear.example.org", tls: undefined };
  expect(ownHosts(behindProxy)).toEqual(["localhost", "127.0.0.1", "[::1]", "10.1.2.3", "gear.example.org"]);
  expect(isHttps(behindProxy)).toBe(true);
  expect(isHttps({ ...behindProxy, publicOrigin: "http://gear.example.org" })).toBe(false);
  expect(ownHosts({ ...quiet, host: "0.0.0.0" })).toEqual(["localhost", "127.0.0.1", "[::1]"]);
});
