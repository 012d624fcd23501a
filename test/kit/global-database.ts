import crypto from "node:crypto";
import type { TestProject } from "vitest/node";
import { openClient } from "../../db/connect.ts";
import { migrate } from "../../db/migrate.ts";
import { APP_ROLE, OWNER_ROLE } from "../../db/roles.ts";
import { openTestCluster } from "./test-cluster.ts";
import { roleUrl, TEST_PASSWORD } from "./test-roles.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** Reaches the cluster as a superuser. */
    superUrl: string;
    /** The migrated database that each test file clones. */
    template: string;
  }
}

/** Before the first test: a cluster, the two roles, and one migrated database to clone. After the last: all of it gone. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const cluster = await openTestCluster();
  const template = `layertrail_template_${crypto.randomBytes(4).toString("hex")}`;
  try {
    await onCluster(cluster.superUrl, [
      ...[OWNER_ROLE, APP_ROLE].map(makeRole),
      `create database ${template} owner ${OWNER_ROLE}`,
    ]);
    await migrate(roleUrl(cluster.superUrl, OWNER_ROLE, template));
  } catch (error) {
    await cluster.stop();
    throw error;
  }
  project.provide("superUrl", cluster.superUrl);
  project.provide("template", template);
  return async () => {
    await onCluster(cluster.superUrl, [`drop database if exists ${template} with (force)`]);
    await cluster.stop();
  };
}

/** Two runs on one cluster may both find the role missing; the second one's error is the answer that it wanted. */
function makeRole(role: string): string {
  return `do $$ begin
    create role ${role} login password '${TEST_PASSWORD}';
  exception when duplicate_object or unique_violation then
    alter role ${role} login password '${TEST_PASSWORD}';
  end $$`;
}

async function onCluster(superUrl: string, statements: readonly string[]): Promise<void> {
  const client = await openClient(superUrl);
  try {
    for (const statement of statements) await client.query(statement);
  } finally {
    await client.end();
  }
}
