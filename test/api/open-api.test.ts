import { dereference, validate } from "@readme/openapi-parser";
import { describe, expect, it } from "vitest";
import { ROUTES } from "../../server/http/all-routes.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();

async function document(): Promise<Record<string, unknown>> {
  const response = await testApp(db, standingClock().now).send("GET", "/api/openapi.json");
  expect(response.status).toBe(200);
  return (await response.json()) as Record<string, unknown>;
}

describe("the description of the interface", () => {
  it("is a valid OpenAPI 3.1 document (validated by @readme/openapi-parser)", async () => {
    const described = await document();
    expect(described["openapi"]).toBe("3.1.0");
    const validated = await validate(structuredClone(described) as never);
    expect(validated).toMatchObject({ valid: true, warnings: [] });
    await dereference(structuredClone(described) as never);
  });

  it("has every route, with its roles, and nothing else", async () => {
    const { paths } = (await document()) as {
      paths: Record<string, Record<string, { "x-roles": unknown; operationId: string }>>;
    };
    const described = Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, route]) => [method, path, route["x-roles"]]),
    );
    const declared = ROUTES.map(({ method, path, roles }) => [method, path, roles]);
    expect(described.sort()).toEqual(declared.sort());
    const ids = Object.values(paths).flatMap((methods) =>
      Object.values(methods).map((route) => route.operationId),
    );
    expect(new Set(ids).size).toBe(ids.length);
  });
});
