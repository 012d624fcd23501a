import type { CustodyHistory, HistoryHolder, HistoryStay, Moment, TraceQuestion } from "./custody-history.ts";

/** A piece as the plain walk finds it. */
export interface PlainContact {
  readonly piece: string;
  readonly hops: number;
  readonly arrival: Moment;
  /** Over all hop counts within the cut. */
  readonly earliest: Moment;
}

interface Episode {
  readonly piece: string;
  readonly holder: string;
  readonly from: Moment;
  readonly to: Moment;
}
interface Epoch {
  readonly holder: string;
  readonly from: Moment;
  readonly to: Moment;
}
/** An episode or an epoch at one instant. A stay that spans a cleaning of its holder has two in it: before and after. */
interface State {
  readonly piece?: string;
  readonly at: Moment;
  readonly half: 0 | 1;
  /** Where it can go from here, with the steps that it costs, and from where it can come. */
  readonly out: { readonly to: State; readonly hops: 0 | 1 }[];
  readonly in: { readonly to: State; readonly hops: 0 | 1 }[];
}

/**
 * Traces by the definition, moment by moment: each episode and each epoch stands once for every instant at which
 * anything happens, and a walk goes from one such state to those that it touches. Slow and plain; the oracle of the
 * fast walk. Roots must have a stay at their moment.
 */
export function plainWalk(history: CustodyHistory, question: TraceQuestion): readonly PlainContact[] {
  const isBackward = question.direction === "backward";
  const moments = instantsOf(history, question);
  const states = unfold(history, question, moments);
  const found = new Map<string, { hops: number; arrival: Moment; earliest: Moment }>();
  const earlier = (one: Moment, other: Moment) => (isBackward ? one > other : one < other);
  const isInWindow = ({ at }: State) =>
    question.until === undefined || (isBackward ? at >= question.until : at <= question.until);
  // The far end of a backward window is read as a root is: a piece that stays on as its holder is cleaned is there after.
  const counts = ({ at, half }: State) => !isBackward || at !== question.until || half === 1;
  const seen = new Set<State>();
  let round = question.roots.map((root) => rootState(states, root));
  for (let hops = 0; round.length > 0 && hops <= (question.hops ?? Number.POSITIVE_INFINITY); hops++) {
    const next: State[] = [];
    for (let state = round.pop(); state; state = round.pop()) {
      if (seen.has(state) || !isInWindow(state)) continue;
      seen.add(state);
      for (const step of isBackward ? state.in : state.out) (step.hops === 0 ? round : next).push(step.to);
      if (state.piece === undefined || !counts(state)) continue;
      const known = found.get(state.piece) ?? { hops, arrival: state.at, earliest: state.at };
      if (known.hops === hops && earlier(state.at, known.arrival)) known.arrival = state.at;
      if (earlier(state.at, known.earliest)) known.earliest = state.at;
      found.set(state.piece, known);
    }
    round = next;
  }
  for (const { piece } of question.roots) found.delete(piece);
  return [...found]
    .map(([piece, contact]) => ({ piece, ...contact }))
    .sort((a, b) => a.hops - b.hops || a.arrival - b.arrival || (a.piece < b.piece ? -1 : 1));
}

function instantsOf(
  { stays, holders, cleanings }: CustodyHistory,
  question: TraceQuestion,
): readonly Moment[] {
  const all = [
    ...stays.flatMap(({ from, to }) => (to === undefined ? [from] : [from, to])),
    ...holders.flatMap((holder) => holder.cleanings),
    ...cleanings.map(({ at }) => at),
    ...question.roots.map(({ at }) => at),
    ...(question.until === undefined ? [] : [question.until]),
  ];
  return [...new Set(all)].sort((a, b) => a - b);
}

type EpisodeStates = Episode & { readonly states: readonly State[] };

/** Makes the states of all episodes and epochs, and the ways between them. */
function unfold(history: CustodyHistory, question: TraceQuestion, instants: readonly Moment[]) {
  const all: EpisodeStates[] = [];
  const pieces = [...new Set(history.stays.map(({ piece }) => piece))];
  for (const piece of pieces) {
    const cleanings = history.cleanings.filter((cleaning) => cleaning.piece === piece).map(({ at }) => at);
    const own = episodesOf(
      history.stays.filter((stay) => stay.piece === piece),
      cleanings,
    ).map((episode) => {
      const cuts = history.holders.find(({ id }) => id === episode.holder)?.cleanings ?? [];
      return { ...episode, states: statesOf(episode, instants, cuts) };
    });
    own.forEach((episode, index) => {
      const next = own[index + 1];
      if (next && !isCutBetween(episode, next, cleanings)) connect(episode.states.at(-1), next.states[0], 0);
    });
    all.push(...own);
  }
  for (const holder of history.holders) {
    if (!question.carriers.some((each) => each === holder.carries)) continue;
    for (const epoch of epochsOf(holder)) {
      const inside = instants.filter((at) => at >= epoch.from && at <= epoch.to);
      const states = inside.map((at): State => ({ at, half: 0, out: [], in: [] }));
      states.forEach((state, index) => {
        connect(state, states[index + 1], 0);
      });
      for (const episode of all) if (meets(episode, epoch)) touch(episode, epoch, states);
    }
  }
  return all;
}

/** Joins an episode with an epoch at each instant that both are there. */
function touch(episode: EpisodeStates, epoch: Epoch, states: readonly State[]) {
  for (const there of states) {
    for (const here of episode.states) {
      if (here.at !== there.at) continue;
      const isSplit = episode.states.filter(({ at }) => at === here.at).length === 2;
      // As the holder is cleaned the first half belongs to the epoch that ends, the second to the one that begins.
      if (isSplit && there.at === epoch.to && here.half === 1) continue;
      if (isSplit && there.at === epoch.from && here.half === 0) continue;
      connect(here, there, 0);
      connect(there, here, 1);
    }
  }
}

function connect(from: State | undefined, to: State | undefined, hops: 0 | 1) {
  if (!from || !to) return;
  from.out.push({ to, hops });
  to.in.push({ to: from, hops });
}

/** A stay [a, b] meets a holder's epoch [s, e) when a < e and (b > s or a = b = s). */
function meets(episode: Episode, epoch: Epoch): boolean {
  const { from, to } = episode;
  if (episode.holder !== epoch.holder) return false;
  return from < epoch.to && (to > epoch.from || (from === to && to === epoch.from));
}

function statesOf(
  episode: Episode & { piece: string },
  instants: readonly Moment[],
  cuts: readonly Moment[],
) {
  const states = instants
    .filter((at) => at >= episode.from && at <= episode.to)
    .flatMap((at): State[] => {
      const isSplit = cuts.includes(at) && at > episode.from && at < episode.to;
      const one = (half: 0 | 1): State => ({ piece: episode.piece, at, half, out: [], in: [] });
      return isSplit ? [one(0), one(1)] : [one(1)];
    });
  states.forEach((state, index) => {
    connect(state, states[index + 1], 0);
  });
  return states;
}

/** Stays of one piece in order, each cut at the piece's cleanings within it. */
function episodesOf(stays: readonly HistoryStay[], cleanings: readonly Moment[]): Episode[] {
  const inOrder = stays
    .map((stay, index) => ({ ...stay, to: stay.to ?? Number.POSITIVE_INFINITY, index }))
    .sort((a, b) => a.from - b.from || (a.to === b.to ? a.index - b.index : a.to - b.to));
  return inOrder.flatMap(({ piece, holder, from, to }) => {
    const cuts = [...new Set(cleanings)].filter((at) => at > from && at < to).sort((a, b) => a - b);
    const starts = [from, ...cuts];
    return starts.map((start, index) => ({ piece, holder, from: start, to: starts[index + 1] ?? to }));
  });
}

/** Departure, cleaning, arrival: a cleaning cuts from the end of the one to the begin of the other, both included. */
function isCutBetween(one: Episode, next: Episode, cleanings: readonly Moment[]): boolean {
  const cameAfter = one.from === one.to;
  return cleanings.some((at) => (cameAfter ? at > one.to : at >= one.to) && at <= next.from);
}

function epochsOf(holder: HistoryHolder): Epoch[] {
  const cuts = [...new Set(holder.cleanings)].sort((a, b) => a - b);
  return [Number.NEGATIVE_INFINITY, ...cuts].map((from, index) => ({
    holder: holder.id,
    from,
    to: cuts[index] ?? Number.POSITIVE_INFINITY,
  }));
}

/** The later of two stays at the moment, and after a cleaning of the holder in it. */
function rootState(episodes: readonly EpisodeStates[], root: { piece: string; at: Moment }): State {
  const own = episodes.filter(
    ({ piece, from, to }) => piece === root.piece && from <= root.at && root.at <= to,
  );
  const state = own.at(-1)?.states.findLast(({ at }) => at === root.at);
  if (!state) throw new Error(`${root.piece} has no stay at ${root.at}`);
  return state;
}
