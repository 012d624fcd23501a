import fc from "fast-check";
import { DirectedGraph } from "graphology";
import { bfsFromNode } from "graphology-traversal";
import { describe, expect, test } from "vitest";
import { aHistory } from "../../../test/kit/builders/random-custody.ts";
import type { CustodyHistory, HistoryStay, TraceQuestion } from "./custody-history.ts";
import { plainWalk } from "./plain-walk.ts";
import { traceHistory } from "./trace-history.ts";

const FOLLOWED = ["closed", "shared"] as const;
const SLOTS = 8;

/** Days since 1970-01-01. */
const day = (text: string) => Math.round(Date.parse(`${text}T00:00:00Z`) / 86_400_000);

interface Contact {
  readonly from: string;
  readonly to: string;
  readonly day: number;
}

/**
 * A directed contact becomes two touching stays of one carrier piece, first in the source and then in the destination,
 * both closed and never cleaned. "One instant" puts all steps of a day at the same moment; "slots" cuts the day into
 * as many equal slots as its longest chain may have, and lets the carrier travel in each of them.
 */
function historyOf(contacts: readonly Contact[], tie: "one instant" | "slots"): CustodyHistory {
  const stays: HistoryStay[] = [];
  contacts.forEach(({ from, to, day: on }, index) => {
    const times = tie === "one instant" ? [0] : Array.from({ length: SLOTS }, (_, slot) => slot);
    for (const slot of times) {
      const at = on * SLOTS + slot;
      const piece = `carrier ${index}.${slot}`;
      stays.push({ piece, holder: from, from: at, to: at }, { piece, holder: to, from: at, to: at });
    }
  });
  const holders = [...new Set(contacts.flatMap(({ from, to }) => [from, to]))];
  return {
    stays,
    holders: holders.map((id) => ({ id, carries: "closed" as const, cleanings: [] })),
    cleanings: [],
  };
}

/**
 * The size of a chain: the holders that are reached from the root's one. A probe lies in the root holder over the whole
 * window, and one in each other holder tells whether that one was reached.
 */
function chainSize(
  contacts: readonly Contact[],
  root: string,
  way: "ingoing" | "outgoing",
  window: string,
  tie: "one instant" | "slots",
): number {
  const [first = "", last = ""] = window.split("…");
  const [begin, end] = [day(first) * SLOTS, day(last) * SLOTS + SLOTS - 1];
  const history = historyOf(contacts, tie);
  const probes = history.holders.map(({ id }) => ({
    piece: `probe ${id}`,
    holder: id,
    from: begin,
    to: end,
  }));
  const isForward = way === "outgoing";
  const question: TraceQuestion = {
    roots: [{ piece: `probe ${root}`, at: isForward ? begin : end }],
    direction: isForward ? "forward" : "backward",
    until: isForward ? end : begin,
    carriers: FOLLOWED,
  };
  const probed = { ...history, stays: [...history.stays, ...probes] };
  const traced = traceHistory(probed, question);
  if ("noStay" in traced) throw new Error("the root has no stay");
  const plain = plainWalk(probed, question).map(({ piece }) => piece);
  expect(new Set(traced.contacts.map(({ piece }) => piece))).toEqual(new Set(plain));
  return traced.contacts.filter(({ piece }) => piece.startsWith("probe ")).length;
}

const contact = (from: number, to: number, on: number | string): Contact => ({
  from: String(from),
  to: String(to),
  day: typeof on === "number" ? on : day(on),
});

const CASES = [
  {
    number: 1,
    contacts: [
      contact(1, 4, 14849),
      contact(2, 5, 14846),
      contact(3, 5, 14847),
      contact(4, 6, 14850),
      contact(5, 8, 14848),
      contact(6, 8, 14851),
      contact(7, 8, 14852),
    ],
    root: "8",
    ingoing: ["2010-08-22…2010-10-01", 7],
    outgoing: ["2010-08-01…2010-08-31", 0],
  },
  {
    number: 2,
    contacts: [contact(1, 3, 14834), contact(2, 3, 14838), contact(3, 4, 14836), contact(3, 4, 14841)],
    root: "4",
    ingoing: ["2010-07-22…2010-08-21", 3],
    outgoing: ["2010-08-01…2010-08-31", 0],
  },
  {
    number: 3,
    contacts: [contact(1, 2, 14834), contact(2, 1, 14834)],
    root: "1",
    ingoing: ["2010-08-02…2010-09-01", 1],
    outgoing: ["2010-09-01…2010-10-01", 0],
  },
  {
    number: 4,
    contacts: [
      contact(1, 2, 14834),
      contact(2, 5, 14838),
      contact(2, 6, 14836),
      contact(1, 3, 14857),
      contact(3, 7, 14860),
      contact(7, 8, 14862),
      contact(1, 4, 14884),
    ],
    root: "1",
    ingoing: ["2010-08-02…2010-09-01", 0],
    outgoing: ["2010-08-01…2010-11-09", 7],
  },
  {
    number: 6,
    contacts: [
      contact(1, 2, "2010-10-01"),
      contact(2, 3, "2010-10-05"),
      contact(1, 2, "2010-10-10"),
      contact(2, 3, "2010-10-15"),
      contact(1, 2, "2010-10-30"),
      contact(3, 4, "2010-10-25"),
      contact(1, 2, "2010-10-20"),
    ],
    root: "1",
    ingoing: ["2010-10-10…2010-10-20", 0],
    outgoing: ["2010-10-10…2010-10-20", 2],
  },
] as const;

describe.each(["one instant", "slots"] as const)("with steps of one day in %s", (tie) => {
  test.each(CASES)(
    "EpiContactTrace at 13c4797, worked case $number: ingoing and outgoing chain have the published sizes",
    ({ contacts, root, ingoing, outgoing }) => {
      expect(chainSize(contacts, root, "ingoing", ingoing[0], tie)).toBe(ingoing[1]);
      expect(chainSize(contacts, root, "outgoing", outgoing[0], tie)).toBe(outgoing[1]);
    },
  );
});

test("Nöremark & Widgren 2014: contacts of one day follow each other in any order", () => {
  const contacts = [contact(3, 4, 14834), contact(2, 3, 14834), contact(1, 2, 14834)];
  const window = "2010-08-12…2010-08-16";
  expect(day("2010-08-13")).toBe(14834);
  expect(chainSize(contacts, "1", "outgoing", window, "one instant")).toBe(3);
  expect(chainSize(contacts, "4", "ingoing", window, "one instant")).toBe(3);
});

test("Holme & Saramäki 2012: reachability is neither symmetric nor transitive", () => {
  const contacts = [contact(1, 2, 14838), contact(2, 3, 14834)];
  const window = "2010-08-01…2010-08-31";
  const reached = (root: string) => chainSize(contacts, root, "outgoing", window, "one instant");
  expect([reached("1"), reached("2"), reached("3")]).toEqual([1, 1, 0]);
});

/**
 * The history as a graph of its own making: each piece and each holder once a moment, "before" and "after" what is cleaned
 * in it. Edges lead from one moment to the next, and both ways between a piece and the holder that it is with.
 */
function expand(history: CustodyHistory): DirectedGraph {
  const graph = new DirectedGraph();
  const times = [
    ...history.stays.flatMap(({ from, to }) => [from, to ?? from]),
    ...history.cleanings.map(({ at }) => at),
    ...history.holders.flatMap(({ cleanings }) => cleanings),
  ];
  const last = Math.max(...times) + 1;
  const edge = (from: string, to: string) => {
    graph.mergeEdge(from, to);
  };
  for (const { id, carries, cleanings } of history.holders) {
    if (carries === "apart") continue;
    for (let at = 0; at <= last; at++) {
      edge(`${id} before ${at}`, `${id} before ${at}`);
      // Where nothing is cleaned, before and after are one moment; where it is, nothing leads from the one to the other.
      if (!cleanings.includes(at)) {
        edge(`${id} before ${at}`, `${id} after ${at}`);
        edge(`${id} after ${at}`, `${id} before ${at}`);
      }
      edge(`${id} after ${at}`, `${id} before ${at + 1}`);
    }
  }
  const isFollowed = (holder: string) =>
    history.holders.some(({ id, carries }) => id === holder && carries !== "apart");
  const pieces = new Map<string, HistoryStay[]>();
  for (const stay of history.stays) pieces.set(stay.piece, [...(pieces.get(stay.piece) ?? []), stay]);
  for (const [piece, stays] of pieces) {
    const cleaned = history.cleanings.filter((each) => each.piece === piece).map(({ at }) => at);
    const inOrder = stays
      .map((stay, index) => ({ ...stay, index, end: stay.to ?? last }))
      .sort((a, b) => a.from - b.from || a.end - b.end || a.index - b.index);
    inOrder.forEach((stay, place) => {
      const name = (half: string, at: number) => `${piece} stay ${place} ${half} ${at}`;
      const halves = (at: number) => {
        if (at === stay.from) return ["after"];
        return at === stay.end ? ["before"] : ["before", "after"];
      };
      let previous: string | undefined;
      for (let at = stay.from; at <= stay.end; at++) {
        for (const half of halves(at)) {
          const here = name(half, at);
          graph.mergeNode(here);
          if (previous && !(half === "after" && cleaned.includes(at))) edge(previous, here);
          previous = here;
          if (!isFollowed(stay.holder)) continue;
          edge(here, `${stay.holder} ${half} ${at}`);
          edge(`${stay.holder} ${half} ${at}`, here);
        }
      }
      const next = inOrder[place + 1];
      const leaves = stay.end === stay.from ? "after" : "before";
      const isCut = (at: number) => cleaned.includes(at);
      if (!next || !previous) return;
      let isBroken = false;
      for (let at = stay.end; at <= next.from; at++)
        if (isCut(at) && (leaves === "before" || at > stay.end)) isBroken = true;
      if (!isBroken) edge(previous, `${piece} stay ${place + 1} after ${next.from}`);
    });
  }
  return graph;
}

test("graphology: breadth-first search of the time-expanded graph reaches the same pieces", () => {
  fc.assert(
    fc.property(aHistory, fc.nat(), fc.boolean(), (history, pick, isBackward) => {
      const root = history.stays[pick % history.stays.length];
      if (!root) return;
      const graph = expand(history);
      const own = history.stays
        .filter(({ piece }) => piece === root.piece)
        .map((stay, index) => ({ ...stay, index, end: stay.to ?? Number.POSITIVE_INFINITY }))
        .sort((a, b) => a.from - b.from || a.end - b.end || a.index - b.index);
      const place = own.findLastIndex(({ from }) => from <= root.from);
      const reached = new Set<string>();
      bfsFromNode(
        graph,
        `${root.piece} stay ${place} after ${root.from}`,
        (node) => {
          if (node.startsWith("p")) reached.add(node.split(" ")[0] ?? "");
        },
        { mode: isBackward ? "inbound" : "outbound" },
      );
      reached.delete(root.piece);
      const traced = traceHistory(history, {
        roots: [{ piece: root.piece, at: root.from }],
        direction: isBackward ? "backward" : "forward",
        carriers: FOLLOWED,
      });
      if ("noStay" in traced) throw new Error("the root has no stay");
      expect(new Set(traced.contacts.map(({ piece }) => piece))).toEqual(reached);
    }),
    { numRuns: 400 },
  );
});
