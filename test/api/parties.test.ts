import { beforeAll, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import {
  closeOutsideAct,
  closeProviderAct,
  nameOutsideAct,
  nameProviderAct,
} from "../../server/cases/party-acts.ts";
import { listOutside, listProviders } from "../../server/cases/read-register.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { OutsideId, ProviderId } from "../../server/domain/ids.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
beforeAll(async () => {
  house = await openDepartment(() => database.app);
});

test("a provider is named with until when it is verified and by whom, renamed, closed when nothing is there, and opened by naming", async () => {
  const { inez } = house;
  const provider = anId<ProviderId>();
  const verified = { verifiedUntil: "2027-03-01" as LocalDate, verifiedBy: "Ostrel Verification" };
  await inez.must(nameProviderAct, { id: provider, name: "Saltmarsh Textile", ...verified });
  const facts = { id: provider, name: "Saltmarsh Textile Care", ...verified };
  await inez.must(nameProviderAct, facts);
  expect(await listProviders(database.app)).toMatchObject([{ ...facts, closed: false }]);

  const hood = aDraft("hood", house.rack);
  await inez.must(registerPiecesAct, { pieces: [hood], evidence: "typed" });
  const pieces = scanned(hood.id);
  await inez.must(movePiecesAct, { pieces, to: { kind: "provider", id: provider }, purpose: "to provider" });
  expect(await inez.refusalsOf(closeProviderAct, { provider })).toEqual(["not-empty"]);
  const back = { kind: "place" as const, id: house.rack };
  await inez.must(movePiecesAct, { pieces, to: back, purpose: "from provider" });
  await inez.must(closeProviderAct, { provider });
  expect(await listProviders(database.app)).toMatchObject([{ closed: true }]);
  await inez.must(nameProviderAct, facts);
  expect(await listProviders(database.app)).toMatchObject([{ closed: false }]);
});

test("two providers in use have no name in common, and one that was never named is not closed", async () => {
  const { inez } = house;
  await inez.must(nameProviderAct, { id: anId<ProviderId>(), name: "Tidewater Repair" });
  const again = { id: anId<ProviderId>(), name: "tidewater repair" };
  expect(await inez.refusalsOf(nameProviderAct, again)).toEqual(["name-taken"]);
  expect(await inez.refusalsOf(closeProviderAct, { provider: again.id })).toEqual(["unknown-subject"]);
});

test("an outside party is named, closed, and stands last in its list", async () => {
  const { inez } = house;
  const [first, second] = [anId<OutsideId>(), anId<OutsideId>()];
  await inez.must(nameOutsideAct, { id: first, name: "Ashgrove hospital", what: "hospital" });
  await inez.must(nameOutsideAct, { id: second, name: "State fire marshal", what: "investigator" });
  await inez.must(closeOutsideAct, { outside: first });
  expect((await listOutside(database.app)).map(({ name, closed }) => [name, closed])).toEqual([
    ["State fire marshal", false],
    ["Ashgrove hospital", true],
  ]);
});
