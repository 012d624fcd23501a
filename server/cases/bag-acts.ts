import type { BenchState } from "../domain/bench/bench-state.ts";
import { bagName, nextBagNumbers } from "../domain/custody/bag-name.ts";
import { type OpenBag, openBag } from "../domain/custody/open-bag.ts";
import { type PackBag, packBag } from "../domain/custody/pack-bag.ts";
import type { PlaceId } from "../domain/ids.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { bagNames, heldBy, isBag, wornLately } from "../store/bags.ts";
import { takeBenchPieces } from "../store/take-bench.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

export const packBagAct: Act<PackBag> = {
  name: "packBag",
  rules: "shared",
  async decide(scope, command, envelope) {
    const held = await heldBy(scope.tx, command.member);
    const member = { kind: "member" as const, id: command.member };
    const taken = await takeBenchPieces(scope, held, envelope.at, [member]);
    const strangers = taken.strangers.length > 0;
    if (strangers) return { refusals: [{ code: "unknown-subject", subject: member.id, what: "member" }] };
    const worn = await wornLately(scope.tx, command.member, envelope.at);
    const facts = { isBag: await isBag(scope.tx, command.bag), ...(worn ? { wornSet: worn } : {}) };
    return packBag(benchOf(taken, envelope), command, facts);
  },
};

export const openBagAct: Act<OpenBag> = {
  name: "openBag",
  rules: "shared",
  async decide(scope, command, envelope) {
    const inside = await heldBy(scope.tx, command.bag);
    const pieces = [...inside, ...command.found.map(({ piece }) => piece)];
    const taken = await takeBenchPieces(scope, pieces, envelope.at, []);
    return openBag(benchOf(taken, envelope), command, { isBag: await isBag(scope.tx, command.bag) });
  },
};

/** Names bags by the next numbers; their cards are printed like those of other places. */
export interface MakeBags {
  readonly bags: readonly PlaceId[];
  readonly within?: PlaceId;
}
export const makeBagsAct: Act<MakeBags> = {
  name: "makeBags",
  rules: "exclusive",
  async decide(scope, { bags, within }) {
    const numbers = nextBagNumbers(await bagNames(scope.tx), bags.length);
    const facts = { what: "bag" as const, carries: "closed" as const, side: "soiled" as const };
    const entries = bags.map((subject, index): NewEntry => {
      const place = { name: bagName(numbers[index] ?? 0), ...facts, ...(within ? { within } : {}) };
      return { subjectKind: "place", subject, entry: { kind: "PlaceNamed", place } };
    });
    return { entries };
  },
};

function benchOf(
  { pieces, book }: Pick<BenchState, "pieces" | "book">,
  { at, by, role }: ActEnvelope,
): BenchState {
  return { pieces, book, at, by, role };
}
