import { expect, test } from "vitest";
import type { MemberId, ModelId, PieceId, PlaceId, Uuid } from "../ids.ts";
import { planMembers } from "./plan-members.ts";
import { type KnownModel, planModels } from "./plan-models.ts";
import { pieceToRegister } from "./plan-pieces.ts";
import type { ModelDraft } from "./read-model-table.ts";

function drawer<Id extends Uuid>(): () => Id {
  let count = 0;
  return () => {
    count += 1;
    return `0198a000-0000-7000-8000-${String(count).padStart(12, "0")}` as Id;
  };
}
const KNOWN = "0198a000-0000-7000-8000-0000000000aa";
const STATION = "0198a000-0000-7000-8000-0000000000bb" as PlaceId;

const aDraft = {
  kind: "hood",
  label: {},
  reading: "not yet read",
  file: { owner: { kind: "department" } },
} as const;

test("a piece lies at the place that its row names, else with the member, else nobody knows where", () => {
  const [place, member, id] = [STATION, KNOWN as MemberId, drawer<PieceId>()()];
  expect(pieceToRegister({ ...aDraft, place, member, set: "second" }, id)).toMatchObject({
    holder: { kind: "place", id: place },
    assignment: { member, set: "second" },
  });
  expect(pieceToRegister({ ...aDraft, member }, id)).toMatchObject({
    holder: { kind: "member", id: member },
    assignment: { member, set: "first set" },
  });
  expect(pieceToRegister(aDraft, id).holder).toEqual({ kind: "whereabouts unknown" });
});

test("a roster lists new numbers, says known ones anew, and leaves alone what is so already", () => {
  const known = [
    { id: KNOWN as MemberId, number: "1042", name: "Corwin Bask", shift: "A", hasLeft: false },
    { id: STATION as Uuid as MemberId, number: "1043", name: "Inez Calloway", hasLeft: false },
  ];
  const plan = planMembers(
    [{ number: "1042", station: STATION }, { number: "1043", name: "Inez Calloway" }, { number: "2001" }],
    known,
    drawer(),
  );
  expect(plan.changed).toEqual([
    { id: KNOWN, number: "1042", name: "Corwin Bask", station: STATION, shift: "A" },
  ]);
  expect(plan.fresh).toEqual([{ id: drawer()(), number: "2001" }]);
  expect(plan.same).toBe(1);
});

test("a member who left and stands on the roster is back", () => {
  const known = [{ id: KNOWN as MemberId, number: "1042", hasLeft: true }];
  expect(planMembers([{ number: "1042" }], known, drawer()).changed).toEqual([{ id: KNOWN, number: "1042" }]);
});

const SHELL: ModelDraft = {
  ...{ maker: "Tarnholt", name: "Ridge 40", kind: "coat-shell", layers: ["coat-liner", "drd"] },
  takes: [{ layerKind: "coat-liner", takesModel: { maker: "Tarnholt", name: "RL 4" } }],
  source: { what: "maker's letter" },
};
const LINER: ModelDraft = {
  ...{ maker: "Tarnholt", name: "RL 4", kind: "coat-liner", takes: [] },
  source: { what: "imported" },
};

test("a model takes a model of the same file, whichever stands first", () => {
  const plan = planModels([SHELL, LINER], [], drawer<ModelId>());
  const [shell, liner] = plan.fresh;
  expect(shell?.takes).toEqual([{ layerKind: "coat-liner", takesModel: liner?.id }]);
});

test("a model table brought in a second time changes nothing, and a blank cell takes nothing away", () => {
  const first = planModels([SHELL, LINER], [], drawer<ModelId>());
  const known: KnownModel[] = first.fresh.map((model) => ({
    ...model,
    source: { ...model.source, by: KNOWN as Uuid },
    wash: "by hand",
  }));
  const [shell] = known;
  const again = planModels([{ ...SHELL, takes: [] }, LINER], known, drawer<ModelId>());
  expect(again).toEqual({ fresh: [], changed: [], same: 2 });
  const wash = planModels([{ ...SHELL, wash: "machine" }], known, drawer<ModelId>());
  expect(wash.changed).toEqual([
    expect.objectContaining({ id: shell?.id, wash: "machine", takes: shell?.takes }),
  ]);
});
