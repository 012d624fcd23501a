import path from "node:path";
import { z } from "zod";
import { StartTrouble } from "../db/start-trouble.ts";

const ROOT = path.resolve(import.meta.dirname, "..");
const LOOPBACK_HOSTS = new Set(["127.0.0.1", "::1", "localhost"]);

const isFilled = (value: string | undefined): value is string => value !== undefined && value !== "";
const text = z
  .string()
  .optional()
  .transform((value) => (isFilled(value) ? value : undefined));
const databaseUrl = text.refine(
  (value) => value === undefined || /^postgres(ql)?:\/\//.test(value),
  "must start with postgresql://",
);
const yes = text
  .refine((value) => value === undefined || value === "0" || value === "1", "must be 1 or 0")
  .transform((value) => value === "1");
const port = text
  .transform((value) => value ?? "4180")
  .refine((value) => /^\d{1,5}$/.test(value) && Number(value) <= 65_535, "must be a port number, 0 to 65535")
  .transform(Number);
const publicOrigin = text.refine((value) => {
  if (value === undefined) return true;
  const url = URL.parse(value);
  return (url?.protocol === "https:" || url?.protocol === "http:") && url.origin === value;
}, "must be an origin such as https://gear.example.org, without a path");

const environment = z.object({
  PORT: port,
  HOST: text,
  DATA_DIR: text,
  DATABASE_URL: databaseUrl,
  MIGRATE_DATABASE_URL: databaseUrl,
  BEHIND_PROXY: yes,
  TLS_CERT: text,
  TLS_KEY: text,
  PUBLIC_ORIGIN: publicOrigin,
  LAYERTRAIL_DEMO: yes,
});

export interface Config {
  /** 0 takes any free port. */
  readonly port: number;
  /** One address, or undefined for loopback in both IP versions. */
  readonly host: string | undefined;
  readonly dataDir: string;
  /** The application role on a PostgreSQL 18 of the department's own; undefined for the one that comes along. */
  readonly databaseUrl: string | undefined;
  /** The owner role there; without it the schema must be up to date already. */
  readonly migrateDatabaseUrl: string | undefined;
  readonly isBehindProxy: boolean;
  readonly tls: { readonly certFile: string; readonly keyFile: string } | undefined;
  /** The origin that people's browsers see, when it is not loopback. */
  readonly publicOrigin: string | undefined;
  readonly isDemo: boolean;
  /** The built pages. */
  readonly webDir: string;
}

/** Reads the environment, once and here alone. All that is wrong with it is said in one line. */
export function parseConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const parsed = environment.safeParse(env);
  if (!parsed.success) {
    throw badConfig(parsed.error.issues.map((issue) => `${issue.path.join(".")} ${issue.message}`));
  }
  const values = parsed.data;
  const faults = contradictions(values);
  if (faults.length > 0) throw badConfig(faults);
  return {
    port: values.PORT,
    host: values.HOST,
    dataDir: values.DATA_DIR
      ? path.resolve(values.DATA_DIR)
      : path.join(ROOT, values.LAYERTRAIL_DEMO ? "data-demo" : "data"),
    databaseUrl: values.DATABASE_URL,
    migrateDatabaseUrl: values.MIGRATE_DATABASE_URL,
    isBehindProxy: values.BEHIND_PROXY,
    tls:
      values.TLS_CERT && values.TLS_KEY ? { certFile: values.TLS_CERT, keyFile: values.TLS_KEY } : undefined,
    publicOrigin: values.PUBLIC_ORIGIN,
    isDemo: values.LAYERTRAIL_DEMO,
    webDir: path.join(ROOT, "web/dist"),
  };
}

function contradictions(values: z.infer<typeof environment>): string[] {
  const faults: string[] = [];
  const isOpen = values.HOST !== undefined && !LOOPBACK_HOSTS.has(values.HOST);
  const hasTls = values.TLS_CERT !== undefined && values.TLS_KEY !== undefined;
  if ((values.TLS_CERT === undefined) !== (values.TLS_KEY === undefined)) {
    faults.push("TLS_CERT and TLS_KEY are given together or not at all");
  }
  if (isOpen && !hasTls && !values.BEHIND_PROXY) {
    faults.push(
      `HOST=${values.HOST} needs TLS_CERT and TLS_KEY, or BEHIND_PROXY=1 behind a proxy that has TLS`,
    );
  }
  if ((isOpen || values.BEHIND_PROXY) && values.PUBLIC_ORIGIN === undefined) {
    faults.push(
      "PUBLIC_ORIGIN must say under which address people open Layertrail, such as https://gear.example.org",
    );
  }
  if (values.MIGRATE_DATABASE_URL !== undefined && values.DATABASE_URL === undefined) {
    faults.push(
      "MIGRATE_DATABASE_URL is the owner's way to the database of DATABASE_URL, which is not given",
    );
  }
  if (values.LAYERTRAIL_DEMO && values.DATABASE_URL !== undefined) {
    faults.push("the demo fills a data folder of its own; start it without DATABASE_URL");
  }
  return faults;
}

function badConfig(faults: readonly string[]): StartTrouble {
  return new StartTrouble("bad-config", `The settings do not fit: ${faults.join("; ")}.`);
}
