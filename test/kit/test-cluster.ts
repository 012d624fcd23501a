import fs from "node:fs";
import net from "node:net";
import os from "node:os";
import path from "node:path";
import { startEmbedded } from "../../db/embedded.ts";

/** A PostgreSQL 18 server that tests may make databases on. */
export interface TestCluster {
  /** Reaches it as a superuser. */
  readonly superUrl: string;
  /** Where it came from, for the line that a failing run prints. */
  readonly origin: "TEST_DATABASE_URL" | "container" | "embedded";
  readonly stop: () => Promise<void>;
}

const IMAGE = "postgres:18";

/** Takes TEST_DATABASE_URL, else a container where Docker answers and has or can pull the image, else the embedded server. */
export async function openTestCluster(): Promise<TestCluster> {
  const given = process.env["TEST_DATABASE_URL"];
  if (given) return { superUrl: given, origin: "TEST_DATABASE_URL", stop: async () => {} };
  return (await openContainer()) ?? (await openEmbedded());
}

async function openContainer(): Promise<TestCluster | undefined> {
  if (!(await dockerAnswers())) return undefined;
  try {
    const { GenericContainer, Wait } = await import("testcontainers");
    const container = await new GenericContainer(IMAGE)
      .withEnvironment({
        POSTGRES_PASSWORD: "test",
        POSTGRES_INITDB_ARGS: "--locale-provider=builtin --builtin-locale=C.UTF-8",
      })
      .withExposedPorts(5432)
      // The image starts the server once for its own set-up before it starts it to stay.
      .withWaitStrategy(Wait.forLogMessage("database system is ready to accept connections", 2))
      .withStartupTimeout(120_000)
      .start();
    return {
      superUrl: `postgresql://postgres:test@${container.getHost()}:${container.getMappedPort(5432)}/postgres`,
      origin: "container",
      stop: async () => {
        await container.stop();
      },
    };
  } catch {
    // No image and no way to pull one: the embedded server is as good.
    return undefined;
  }
}

function dockerAnswers(): Promise<boolean> {
  const host = process.env["DOCKER_HOST"];
  const address = host ? new URL(host) : undefined;
  return new Promise((resolve) => {
    const socket =
      address && address.protocol !== "unix:"
        ? net.connect(Number(address.port || 2375), address.hostname)
        : net.connect(address?.pathname ?? "/var/run/docker.sock");
    const answer = (isThere: boolean) => {
      socket.destroy();
      resolve(isThere);
    };
    socket.setTimeout(2_000, () => answer(false));
    socket.once("connect", () => answer(true));
    socket.once("error", () => answer(false));
  });
}

async function openEmbedded(): Promise<TestCluster> {
  const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), "layertrail-test-"));
  const database = await startEmbedded({ dataDir });
  return {
    superUrl: database.superUrl,
    origin: "embedded",
    stop: async () => {
      await database.stop();
      fs.rmSync(dataDir, { recursive: true, force: true });
    },
  };
}
