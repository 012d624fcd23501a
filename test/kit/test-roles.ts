/** The password of both roles on a cluster that asks for one. It guards nothing: the cluster is made for tests. */
export const TEST_PASSWORD = "layertrail-test";

/** The address of one database in one role, on the cluster that a superuser's address names. */
export function roleUrl(superUrl: string, role: string, database: string): string {
  const parts = /^(postgres(?:ql)?:\/\/)(?:[^@/]*@)?([^/?]*)(?:\/[^?]*)?(\?.*)?$/.exec(superUrl);
  if (!parts) throw new Error("TEST_DATABASE_URL is not a PostgreSQL connection URL.");
  return `${parts[1]}${role}:${TEST_PASSWORD}@${parts[2]}/${database}${parts[3] ?? ""}`;
}

/** The superuser's address of another database of the cluster. */
export function superUrlOf(superUrl: string, database: string): string {
  return superUrl.replace(/^(postgres(?:ql)?:\/\/[^/?]*)(?:\/[^?]*)?/, `$1/${database}`);
}
