import fc from "fast-check";
import type {
  CustodyHistory,
  HistoryStay,
  TraceQuestion,
} from "../../../server/domain/tracing/custody-history.ts";

const CARRIES = ["closed", "closed", "shared", "shared", "apart"] as const;
/** Few instants, so that most things happen at the same one as another. */
const LAST = 11;

const segment = fc.record({
  gap: fc.constantFrom(0, 0, 0, 1, 2),
  length: fc.integer({ min: 0, max: 4 }),
  holder: fc.integer({ min: 0, max: 5 }),
});
const moment = fc.integer({ min: 0, max: LAST });
const moments = (most: number) => fc.array(moment, { maxLength: most });

/** A custody history of up to 8 pieces and 6 holders in which ties are the rule. */
export const aHistory: fc.Arbitrary<CustodyHistory> = fc
  .record({
    pieces: fc.array(
      fc.record({
        start: fc.integer({ min: 0, max: 4 }),
        isOpen: fc.boolean(),
        segments: fc.array(segment, { minLength: 1, maxLength: 5 }),
        cleanings: moments(2),
      }),
      { minLength: 2, maxLength: 8 },
    ),
    holders: fc.array(fc.record({ carries: fc.constantFrom(...CARRIES), cleanings: moments(2) }), {
      minLength: 6,
      maxLength: 6,
    }),
  })
  .map(({ pieces, holders }) => ({
    stays: pieces.flatMap(({ start, segments, isOpen }, piece) => {
      let at = start;
      return segments.map(({ gap, length, holder }, index): HistoryStay => {
        const from = at + gap;
        at = from + length;
        const isLast = index === segments.length - 1;
        return { piece: `p${piece}`, holder: `h${holder}`, from, ...(isLast && isOpen ? {} : { to: at }) };
      });
    }),
    holders: holders.map((holder, index) => ({ id: `h${index}`, ...holder })),
    cleanings: pieces.flatMap(({ cleanings }, piece) => cleanings.map((at) => ({ piece: `p${piece}`, at }))),
  }));

/** A question on a history: one root or two, each with a stay at its moment. */
export function aQuestion(history: CustodyHistory): fc.Arbitrary<TraceQuestion> {
  const root = fc
    .record({ stay: fc.constantFrom(...history.stays), share: fc.integer({ min: 0, max: 4 }) })
    .map(({ stay, share }) => ({
      piece: stay.piece,
      at: Math.min(stay.from + share, stay.to ?? Number.POSITIVE_INFINITY),
    }));
  return fc
    .record({
      roots: fc.array(root, { minLength: 1, maxLength: 2 }),
      direction: fc.constantFrom("forward" as const, "backward" as const),
      hops: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined }),
      span: fc.option(fc.integer({ min: 0, max: 6 }), { nil: undefined }),
      carriers: fc.constantFrom(
        ["closed", "shared"] as const,
        ["closed", "shared"] as const,
        ["closed"] as const,
      ),
    })
    .map(({ roots, direction, hops, span, carriers }) => {
      const times = roots.map(({ at }) => at);
      const far = direction === "forward" ? Math.max(...times) : Math.min(...times);
      const until = span === undefined ? undefined : far + (direction === "forward" ? span : -span);
      return {
        roots,
        direction,
        carriers,
        ...(hops === undefined ? {} : { hops }),
        ...(until === undefined ? {} : { until }),
      };
    });
}

/** A history together with a question on it. */
export const aHistoryWithQuestion = aHistory.chain((history) =>
  aQuestion(history).map((question) => ({ history, question })),
);
