import { beforeAll, describe, expect, test } from "vitest";
import { nameOutsideAct, nameProviderAct } from "../../server/cases/party-acts.ts";
import {
  describeModelsAct,
  recordAcceptanceAct,
  setSettingsAct,
  withdrawAcceptanceAct,
} from "../../server/cases/rule-acts.ts";
import type { ModelId, OutsideId, ProviderId, Uuid } from "../../server/domain/ids.ts";
import { MODEL_COLUMNS } from "../../server/domain/intake/columns.ts";
import { STANDARD_KINDS } from "../../server/domain/register/standard-kinds.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { anId } from "../kit/acting.ts";
import { type Department, openDepartment } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
let app: TestApp;
let cookie: string;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock().now);
  cookie = (await app.signedInAs("reader")).cookie;
});

async function ask(path: string) {
  const response = await app.send("GET", path, { cookie });
  expect(response.status).toBe(200);
  return await response.json();
}

const day = "2026-02-03" as LocalDate;

describe("the short lists that forms choose from", () => {
  test("name every kind with its layer, and leave out what a kind does not have", async () => {
    const { kinds } = await ask("/api/kinds");
    expect(kinds).toHaveLength(STANDARD_KINDS.length);
    const byCode = new Map(kinds.map((kind: { code: string }) => [kind.code, kind]));
    for (const kind of STANDARD_KINDS) expect(byCode.get(kind.code)).toMatchObject(kind);
    expect(byCode.get("hood")).not.toHaveProperty("layer");
  });

  test("show a row of the model table with what it takes by name, its source and the source's day", async () => {
    const liner = { id: anId<ModelId>(), maker: "Tarnholt", name: "K7 liner", kind: "coat-liner" };
    const shell = { id: anId<ModelId>(), maker: "Tarnholt", name: "K9", kind: "coat-shell" };
    const source = { what: "worn-together label" as const, on: day };
    await house.inez.must(describeModelsAct, {
      models: [
        { ...liner, layers: [], takes: [], source },
        {
          ...shell,
          ...{ layers: ["coat-liner", "drd"], wash: "machine", source },
          takes: [{ layerKind: "coat-liner", takesModel: liner.id }],
        },
      ],
    });
    const { models } = await ask("/api/models");
    expect(models.map(({ name }: { name: string }) => name)).toEqual(["K7", "K7 liner", "K9"]);
    expect(models[2]).toMatchObject({
      ...shell,
      ...{ layers: ["coat-liner", "drd"], wash: "machine", version: 1 },
      takes: [{ layerKind: "coat-liner", takesModel: liner.id, takesModelName: "K7 liner" }],
      source: { what: "worn-together label", by: house.inez.by, on: day },
    });
    expect(models[0]).not.toHaveProperty("wash");
    expect(models[0].source).not.toHaveProperty("on");
  });

  test("write the model table as a file with a row for each layer that a model takes", async () => {
    const response = await app.send("GET", "/api/model-table.csv", { cookie });
    expect(response.headers.get("content-type")).toBe("text/csv; charset=utf-8");
    const [heads, ...rows] = (await response.text()).replace("\ufeff", "").trimEnd().split("\r\n");
    const { models } = await ask("/api/models");
    expect(heads?.split(",")).toHaveLength(MODEL_COLUMNS.length);
    // One row for each layer that is taken, one for a model that takes none.
    expect(rows).toHaveLength(models.length);
    expect(rows.find((row) => row.includes(",K9,"))).toMatch(/coat-liner \+ drd.*K7 liner.*2026-02-03/);
  });

  test("keep a withdrawn word on file, after those in force", async () => {
    const said = { saidBy: "maker" as const, saidByName: "Tarnholt", saidOn: day };
    const words = [anId<Uuid>(), anId<Uuid>()] as const;
    const scope = { what: "codes" as const, maker: "Tarnholt", shellTakes: "LK-2", linerCode: "LK-3" };
    for (const id of words) {
      await house.inez.must(recordAcceptanceAct, { id, scope, document: "letter 7", ...said });
    }
    await house.inez.must(withdrawAcceptanceAct, { acceptance: words[1] });
    const { acceptances } = await ask("/api/acceptances");
    expect(acceptances).toMatchObject([
      { id: words[0], withdrawn: false, scope, document: "letter 7", ...said },
      { id: words[1], withdrawn: true },
    ]);
  });

  test("put the names of models to a word about models", async () => {
    const { models } = await ask("/api/models");
    const scope = { what: "models" as const, shellModel: models[0].id, linerCode: "LK-4" };
    const said = { saidBy: "provider" as const, saidByName: "Saltmarsh Textile Care", saidOn: day };
    await house.inez.must(recordAcceptanceAct, { id: anId<Uuid>(), scope, document: "report 12", ...said });
    expect((await ask("/api/acceptances")).names[models[0].id]).toBe("Tarnholt K7");
  });

  test("show providers and parties outside", async () => {
    const provider = { id: anId<ProviderId>(), name: "Saltmarsh Textile Care", verifiedUntil: day };
    const party = { id: anId<OutsideId>(), name: "County hospital", what: "hospital" as const };
    await house.inez.must(nameProviderAct, provider);
    await house.inez.must(nameOutsideAct, party);
    expect((await ask("/api/providers")).providers).toEqual([{ ...provider, version: 1, closed: false }]);
    expect((await ask("/api/outside")).outside).toEqual([{ ...party, closed: false, version: 1 }]);
  });

  test("show each setting with the value it starts with until somebody sets it", async () => {
    expect(await ask("/api/settings")).toMatchObject({ "labels not read": "stop", "time zone": "UTC" });
    await house.inez.must(setSettingsAct, { settings: { "time zone": "America/New_York" } });
    expect(await ask("/api/settings")).toMatchObject({
      ...{ "labels not read": "stop", "time zone": "America/New_York" },
    });
  });
});
