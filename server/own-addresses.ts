import type { Config } from "./config.ts";

type Addressing = Pick<Config, "host" | "publicOrigin" | "tls">;

const LOOPBACK = ["localhost", "127.0.0.1", "[::1]"];
const ANY = new Set(["0.0.0.0", "::"]);

/** The host names, without a port, that mean this server. Loopback is always among them, for the health check. */
export function ownHosts(config: Addressing): readonly string[] {
  const hosts = new Set(LOOPBACK);
  if (config.host !== undefined && !ANY.has(config.host)) hosts.add(inUrl(config.host));
  if (config.publicOrigin) hosts.add(new URL(config.publicOrigin).hostname);
  return [...hosts];
}

/** Tells whether browsers reach this server by https, from itself or from the proxy before it. */
export function isHttps(config: Addressing): boolean {
  return config.tls !== undefined || config.publicOrigin?.startsWith("https:") === true;
}

/**
 * The addresses to print. A plain GET of the first one, on this machine, answers 200: `localhost` only where both IP
 * versions are ours, since a browser may take either.
 */
export function printedAddresses(config: Addressing, port: number, hasBoth: boolean): readonly string[] {
  const host = config.host === undefined ? (hasBoth ? "localhost" : "127.0.0.1") : reachable(config.host);
  const [scheme, usual] = config.tls ? ["https", 443] : ["http", 80];
  const own = `${scheme}://${host}${port === usual ? "" : `:${port}`}`;
  return config.publicOrigin && config.publicOrigin !== own ? [own, config.publicOrigin] : [own];
}

function reachable(host: string): string {
  return ANY.has(host) ? "localhost" : inUrl(host);
}

function inUrl(host: string): string {
  return host.includes(":") ? `[${host}]` : host;
}
