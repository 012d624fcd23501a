import fc from "fast-check";
import { expect, test } from "vitest";
import { aHistory, aHistoryWithQuestion } from "../../../test/kit/builders/random-custody.ts";
import { type CustodyHistory, numberHistory, type TraceQuestion } from "./custody-history.ts";
import { cutEpisodes } from "./cut-episodes.ts";
import { plainWalk } from "./plain-walk.ts";
import { type Contact, findRoots, type Path, traceHistory, walkNodes } from "./trace-history.ts";

function contactsOf(history: CustodyHistory, question: TraceQuestion): readonly Contact[] {
  const traced = traceHistory(history, question);
  if ("noStay" in traced) throw new Error(`no stay: ${JSON.stringify(traced.noStay)}`);
  return traced.contacts;
}
const told = (contacts: readonly Contact[]) =>
  contacts.map(({ piece, path, earlier }) => ({
    piece,
    hops: path.hops,
    arrival: path.arrival,
    earliest: (earlier ?? path).arrival,
  }));

test("the fast walk finds what the plain walk finds, with and without cuts, forward and backward", () => {
  fc.assert(
    fc.property(aHistoryWithQuestion, ({ history, question }) => {
      expect(told(contactsOf(history, question))).toEqual(plainWalk(history, question));
    }),
    { numRuns: 2_500 },
  );
});

/** Tells whether a walk reaches the very episode that a piece is in at a moment, whatever else of the piece it reaches. */
function reachesEpisode(
  history: CustodyHistory,
  question: TraceQuestion,
  piece: string,
  at: number,
): boolean {
  const numbered = numberHistory(history);
  const nodes = cutEpisodes(numbered.columns, question.carriers);
  const from = findRoots(numbered, nodes, question);
  const aim = findRoots(numbered, nodes, { ...question, roots: [{ piece, at }] });
  if ("noStay" in from || "noStay" in aim) throw new Error("no stay");
  const { labels } = walkNodes(nodes, question, from.roots);
  return labels.node.includes(aim.roots[0]?.episode ?? -1);
}

/** Checks a path against the history alone: who was where, and when. */
function expectLegal(history: CustodyHistory, question: TraceQuestion, path: Path) {
  const isForward = question.direction === "forward";
  const first = path.legs[0];
  expect(path.legs).toHaveLength(path.hops);
  expect(isForward ? first?.from : path.legs.at(-1)?.to).toBe(path.root);
  let clock = isForward ? path.rootAt : path.arrival;
  for (const [index, leg] of path.legs.entries()) {
    const before = path.legs[index - 1];
    if (before) expect(leg.from).toBe(before.to);
    for (const [stay, piece, at] of [
      [history.stays[leg.fromStay], leg.from, leg.left],
      [history.stays[leg.toStay], leg.to, leg.at],
    ] as const) {
      expect(stay).toMatchObject({ piece, holder: leg.holder });
      expect(stay?.from).toBeLessThanOrEqual(at);
      expect(stay?.to ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(at);
      expect(at).toBeGreaterThanOrEqual(clock);
      expect(at).toBeGreaterThanOrEqual(leg.epochFrom ?? Number.NEGATIVE_INFINITY);
      expect(at).toBeLessThanOrEqual(leg.epochTo ?? Number.POSITIVE_INFINITY);
      clock = at;
    }
  }
  expect(clock).toBe(isForward ? path.arrival : (path.legs.at(-1)?.at ?? clock));
}

test("each path goes from stay to stay that were there, in the order of time", () => {
  fc.assert(
    fc.property(aHistoryWithQuestion, ({ history, question }) => {
      for (const { path, earlier } of contactsOf(history, question)) {
        expectLegal(history, question, path);
        if (earlier) expectLegal(history, question, earlier);
      }
    }),
    { numRuns: 500 },
  );
});

test("adding a stay never shrinks a trace", () => {
  fc.assert(
    fc.property(aHistoryWithQuestion, fc.nat(), ({ history, question }, pick) => {
      const added = history.stays[pick % history.stays.length];
      // A later stay at a root's moment would be another root.
      fc.pre(!question.roots.some(({ piece, at }) => piece === added?.piece && at >= added.from));
      const without = { ...history, stays: history.stays.filter((stay) => stay !== added) };
      const pieces = (contacts: readonly Contact[]) => new Set(contacts.map(({ piece }) => piece));
      const [fewer, more] = [pieces(contactsOf(without, question)), pieces(contactsOf(history, question))];
      expect([...fewer].filter((piece) => !more.has(piece))).toEqual([]);
    }),
    { numRuns: 1_000 },
  );
});

test("adding an accepted cleaning of a piece or a holder never grows a trace", () => {
  fc.assert(
    fc.property(
      aHistoryWithQuestion,
      fc.nat(),
      fc.integer({ min: 0, max: 11 }),
      ({ history, question }, pick, at) => {
        const ofPiece = history.stays[pick % history.stays.length]?.piece ?? "";
        const ofHolder = `h${pick % 6}`;
        const cleaned: CustodyHistory = {
          ...history,
          holders: history.holders.map((holder) =>
            holder.id === ofHolder ? { ...holder, cleanings: [...holder.cleanings, at] } : holder,
          ),
          cleanings: [...history.cleanings, { piece: ofPiece, at }],
        };
        const before = new Map(contactsOf(history, question).map((contact) => [contact.piece, contact]));
        for (const contact of contactsOf(cleaned, question)) {
          expect(before.has(contact.piece)).toBe(true);
          expect(contact.path.hops).toBeGreaterThanOrEqual(before.get(contact.piece)?.path.hops ?? 99);
        }
      },
    ),
    { numRuns: 1_000 },
  );
});

test("renaming pieces and holders and shifting time change nothing else", () => {
  fc.assert(
    fc.property(
      aHistoryWithQuestion,
      fc.integer({ min: -1e12, max: 1e12 }),
      ({ history, question }, shift) => {
        const piece = (name: string) => `q${9 - Number(name.slice(1))}`;
        const holder = (name: string) => `holder ${7 - Number(name.slice(1))}`;
        const moved: CustodyHistory = {
          // Stays without length at one moment follow each other as they were given: their order stays.
          stays: history.stays.map((stay) => ({
            piece: piece(stay.piece),
            holder: holder(stay.holder),
            from: stay.from + shift,
            ...(stay.to === undefined ? {} : { to: stay.to + shift }),
          })),
          holders: history.holders
            .map((each) => ({
              ...each,
              id: holder(each.id),
              cleanings: each.cleanings.map((at) => at + shift),
            }))
            .reverse(),
          cleanings: history.cleanings
            .map((each) => ({ piece: piece(each.piece), at: each.at + shift }))
            .reverse(),
        };
        const asked: TraceQuestion = {
          ...question,
          roots: question.roots.map((root) => ({ piece: piece(root.piece), at: root.at + shift })),
          ...(question.until === undefined ? {} : { until: question.until + shift }),
        };
        const back = told(contactsOf(moved, asked)).map((contact) => ({
          piece: `p${9 - Number(contact.piece.slice(1))}`,
          hops: contact.hops,
          arrival: contact.arrival - shift,
          earliest: contact.earliest - shift,
        }));
        back.sort((a, b) => a.hops - b.hops || a.arrival - b.arrival || (a.piece < b.piece ? -1 : 1));
        expect(back).toEqual(told(contactsOf(history, question)));
      },
    ),
    { numRuns: 500 },
  );
});

test("u at t1 is reached forward from v at t0 exactly when v at t0 is reached backward from u at t1", () => {
  fc.assert(
    fc.property(aHistory, fc.nat(), fc.nat(), fc.nat(11), fc.nat(11), (history, one, other, early, late) => {
      const [v, u] = [history.stays[one % history.stays.length], history.stays[other % history.stays.length]];
      const [t0, t1] = [Math.min(early, late), Math.max(early, late)];
      const isThere = (stay: typeof v, at: number) =>
        stay !== undefined && stay.from <= at && at <= (stay.to ?? Number.POSITIVE_INFINITY);
      fc.pre(v !== undefined && u !== undefined && v.piece !== u.piece && isThere(v, t0) && isThere(u, t1));
      if (!v || !u) return;
      const carriers = ["closed", "shared"] as const;
      const forth: TraceQuestion = {
        roots: [{ piece: v.piece, at: t0 }],
        direction: "forward",
        until: t1,
        carriers,
      };
      const back: TraceQuestion = {
        roots: [{ piece: u.piece, at: t1 }],
        direction: "backward",
        until: t0,
        carriers,
      };
      expect(reachesEpisode(history, back, v.piece, t0)).toBe(reachesEpisode(history, forth, u.piece, t1));
    }),
    { numRuns: 2_500 },
  );
});
