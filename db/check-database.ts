import crypto from "node:crypto";
import { openClient } from "./connect.ts";
import { StartTrouble } from "./start-trouble.ts";

interface FoundRow {
  readonly who: string;
  readonly major: number;
  readonly encoding: string;
  readonly fsync: string;
  readonly full_page_writes: string;
  readonly synchronous_commit: string;
  readonly is_super: boolean;
  readonly roles: readonly string[];
  readonly excess: readonly string[];
  readonly missing: readonly string[];
  readonly identity: string;
}

/** Roles that PostgreSQL makes and that are as good as a superuser, because they write files or run programs. */
const SUPER_LIKE = ["pg_write_server_files", "pg_execute_server_program", "pg_write_all_data", "pg_maintain"];

const FOUND = `
  with ledger(name) as (values ('act'), ('entry')),
  owners as (select distinct tableowner::text as owner from pg_tables where schemaname = 'public' and tablename in ('act', 'entry'))
  select current_user::text as who,
    current_setting('server_version_num')::int / 10000 as major,
    current_setting('server_encoding') as encoding,
    current_setting('fsync') as fsync,
    current_setting('full_page_writes') as full_page_writes,
    current_setting('synchronous_commit') as synchronous_commit,
    (select rolsuper or rolbypassrls from pg_roles where rolname = current_user) as is_super,
    array(select rolname::text from pg_roles where (rolname = any ($1) or rolname in (select owner from owners))
          and pg_has_role(current_user, oid, 'member') order by 1) as roles,
    array(select lower(may) || ' on ' || name from ledger, unnest(array['UPDATE', 'DELETE', 'TRUNCATE', 'REFERENCES', 'TRIGGER']) as may
          where has_table_privilege(current_user, name, may)
             or may in ('UPDATE', 'REFERENCES') and has_any_column_privilege(current_user, name, may) order by 1) as excess,
    array(select lower(may) || ' on ' || name from ledger, unnest(array['INSERT', 'SELECT']) as may
          where not has_table_privilege(current_user, name, may) order by 1) as missing,
    (select system_identifier::text from pg_control_system()) || '/' ||
      (select oid::text from pg_database where datname = current_database()) as identity`;

/**
 * Refuses a database that could lose what it acknowledged, and an application role that could change what the ledger
 * says. Returns a short id of this database, the same for every server that uses it.
 */
export async function checkDatabase(appUrl: string): Promise<string> {
  const client = await openClient(appUrl);
  try {
    const { rows } = await client.query<FoundRow>(FOUND, [SUPER_LIKE]);
    const [found] = rows;
    if (!found) throw new Error("The database gave no answer about itself.");
    refuseUnsafe(found);
    refuseStrongRole(found);
    return crypto.createHash("sha256").update(found.identity).digest("hex").slice(0, 8);
  } finally {
    await client.end();
  }
}

/** Refuses any PostgreSQL but 18, before a migration meets it. */
export async function checkVersion(url: string): Promise<void> {
  const client = await openClient(url);
  try {
    const { rows } = await client.query<{ major: number }>(
      "select current_setting('server_version_num')::int / 10000 as major",
    );
    refuseVersion(rows[0]?.major);
  } finally {
    await client.end();
  }
}

function refuseVersion(major: number | undefined): void {
  if (major === 18) return;
  throw new StartTrouble(
    "wrong-database-version",
    `The database is PostgreSQL ${major}; Layertrail needs PostgreSQL 18.`,
  );
}

function refuseUnsafe(found: FoundRow): void {
  refuseVersion(found.major);
  const off = (["fsync", "full_page_writes", "synchronous_commit"] as const).filter(
    (name) => found[name] === "off",
  );
  if (off.length > 0) {
    throw new StartTrouble(
      "unsafe-database",
      `The database runs with ${off.join(" and ")} off, so a power cut could lose acts that were acknowledged. Set ${off.length > 1 ? "them" : "it"} to on.`,
    );
  }
  if (found.encoding !== "UTF8") {
    throw new StartTrouble(
      "unsafe-database",
      `The database's encoding is ${found.encoding}; it must be UTF8.`,
    );
  }
}

function refuseStrongRole(found: FoundRow): void {
  const may = [
    ...(found.is_super ? ["anything (it is a superuser or passes row security)"] : []),
    ...found.roles.map((role) => `what ${role} may`),
    ...found.excess,
  ];
  if (may.length > 0) {
    throw new StartTrouble(
      "role-too-strong",
      `DATABASE_URL's role ${found.who} may do more than insert and select on act and entry: ${may.join(", ")}. Use a role that has only what layertrail_app was granted.`,
    );
  }
  if (found.missing.length > 0) {
    throw new StartTrouble(
      "role-too-weak",
      `DATABASE_URL's role ${found.who} lacks ${found.missing.join(", ")}. Make it a member of layertrail_app.`,
    );
  }
}
