import { beforeAll, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { closePlaceAct } from "../../server/cases/party-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { PlaceId } from "../../server/domain/ids.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
});

async function aRack(name: string): Promise<PlaceId> {
  const id = anId<PlaceId>();
  await house.inez.must(namePlaceAct, { id, name, what: "rack", carries: "shared" });
  return id;
}

test("a place that holds pieces is not closed, and is once they are elsewhere", async () => {
  const [rack, other] = [await aRack("Rack X1"), await aRack("Rack X2")];
  const hoods = [aDraft("hood", rack), aDraft("hood", rack)];
  await house.inez.must(registerPiecesAct, { pieces: hoods, evidence: "typed" });

  const refused = await house.inez.act(closePlaceAct, { place: rack });
  expect(refused).toMatchObject({ refusals: [{ code: "not-empty", subject: rack, pieces: 2 }] });

  const pieces = hoods.flatMap(({ id }) => scanned(id));
  await house.inez.must(movePiecesAct, { pieces, to: { kind: "place", id: other }, purpose: "transfer" });
  await house.inez.must(closePlaceAct, { place: rack });
});
