import fs from "node:fs";
import http from "node:http";
import https from "node:https";
import type { AddressInfo } from "node:net";
import { getRequestListener } from "@hono/node-server";
import { StartTrouble } from "../db/start-trouble.ts";
import type { Config } from "./config.ts";
import { printedAddresses } from "./own-addresses.ts";

const DRAIN_MS = 10_000;

/** The server as it listens, on one port and one or two addresses. */
export interface Listening {
  /** What to print, the first one first: a plain GET of it answers 200. */
  readonly addresses: readonly string[];
  /** Takes no new request, lets the running ones end for at most ten seconds, then ends them. */
  readonly drain: () => Promise<void>;
}

type Fetch = (request: Request, env: unknown) => Response | Promise<Response>;

/** Listens on the configured address, by default on loopback in both IP versions where the machine has both. */
export async function listen(config: Config, fetch: Fetch): Promise<Listening> {
  const servers: http.Server[] = [];
  try {
    const first = makeServer(config, fetch);
    const port = await bind(first, config.port, config.host ?? "127.0.0.1");
    servers.push(first);
    if (config.host === undefined) {
      const second = makeServer(config, fetch);
      if (await bindIfThere(second, port, "::1")) servers.push(second);
    }
    return { addresses: printedAddresses(config, port, servers.length > 1), drain: () => drainAll(servers) };
  } catch (error) {
    await drainAll(servers);
    throw error;
  }
}

function makeServer(config: Config, fetch: Fetch): http.Server {
  const listener = getRequestListener(fetch, { overrideGlobalObjects: false });
  if (!config.tls) return http.createServer(listener);
  return https.createServer(
    { cert: readPem(config.tls.certFile), key: readPem(config.tls.keyFile) },
    listener,
  );
}

function readPem(file: string): Buffer {
  try {
    return fs.readFileSync(file);
  } catch (cause) {
    throw new StartTrouble("bad-config", `The TLS file ${file} cannot be read.`, { cause });
  }
}

function bind(server: http.Server, port: number, host: string): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", (error: NodeJS.ErrnoException) => reject(troubleOf(error, port, host)));
    server.listen(port, host, () => resolve((server.address() as AddressInfo).port));
  });
}

function troubleOf(error: NodeJS.ErrnoException, port: number, host: string): Error {
  if (error.code === "EADDRINUSE") {
    return new StartTrouble(
      "port-in-use",
      `Port ${port} on ${host} is in use by another program. Stop that one, or start with another port: PORT=${port + 1} npm start.`,
    );
  }
  if (error.code === "EACCES") {
    return new StartTrouble(
      "no-permission",
      `This user may not listen on port ${port}. Choose one above 1023: PORT=4180 npm start.`,
    );
  }
  if (error.code === "EADDRNOTAVAIL" || error.code === "ENOTFOUND") {
    return new StartTrouble("bad-config", `HOST=${host} is no address of this machine.`);
  }
  return error;
}

/** A machine without IPv6 has no ::1; a program that has our port there is still in the way. */
async function bindIfThere(server: http.Server, port: number, host: string): Promise<boolean> {
  try {
    await bind(server, port, host);
    return true;
  } catch (error) {
    if (error instanceof StartTrouble && error.code === "port-in-use") throw error;
    return false;
  }
}

async function drainAll(servers: readonly http.Server[]): Promise<void> {
  await Promise.all(servers.map(drain));
}

function drain(server: http.Server): Promise<void> {
  return new Promise((resolve) => {
    const force = setTimeout(() => server.closeAllConnections(), DRAIN_MS);
    // A kept-alive connection becomes idle when its last answer is out, and would hold the server open for seconds.
    const sweep = setInterval(() => server.closeIdleConnections(), 50);
    server.close(() => {
      clearTimeout(force);
      clearInterval(sweep);
      resolve();
    });
  });
}
