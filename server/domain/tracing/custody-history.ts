import type { Carries, TraceDirection } from "./trace-view.ts";

/** A whole number in any one unit, the same throughout a history: milliseconds of the ledger, microseconds of a file. */
export type Moment = number;

/** The time that a piece was with a holder, half-open [from, to); without `to` it lasts. Ids are opaque. */
export interface HistoryStay {
  readonly piece: string;
  readonly holder: string;
  readonly from: Moment;
  readonly to?: Moment;
}

/** What is known of a holder: how things touch there, and when it was itself cleaned, in any order. */
export interface HistoryHolder {
  readonly id: string;
  readonly carries: Carries;
  readonly cleanings: readonly Moment[];
}

/** A cleaning that ends what the piece carried. Whether one does is decided before the history is made. */
export interface HistoryCleaning {
  readonly piece: string;
  readonly at: Moment;
}

/**
 * All that a walk is made on. The stays of one piece do not overlap; touching is fine, and so is a stay without length.
 * Stays of one piece at one moment follow each other in the order given.
 */
export interface CustodyHistory {
  readonly stays: readonly HistoryStay[];
  readonly holders: readonly HistoryHolder[];
  readonly cleanings: readonly HistoryCleaning[];
}

export interface TraceQuestion {
  readonly roots: readonly { readonly piece: string; readonly at: Moment }[];
  readonly direction: TraceDirection;
  /** Most steps; without it as many as there are. */
  readonly hops?: number;
  /** The far end of the window, included: forward the last moment, backward the first. */
  readonly until?: Moment;
  /** Which holders are followed. Apart never is. */
  readonly carriers: readonly Exclude<Carries, "apart">[];
}

/** The same history by number: the form in which a million stays are walked. */
export interface HistoryColumns {
  readonly pieces: number;
  readonly piece: Int32Array;
  readonly holder: Int32Array;
  readonly from: Float64Array;
  /** Infinity where the stay lasts. */
  readonly to: Float64Array;
  /** By holder. */
  readonly carries: readonly Carries[];
  readonly holderCleanings: readonly (readonly Moment[])[];
  readonly cleaningPiece: Int32Array;
  readonly cleaningAt: Float64Array;
}

/** A history by number with the numbers of its ids. */
export interface NumberedHistory {
  readonly columns: HistoryColumns;
  readonly pieceIds: readonly string[];
  readonly holderIds: readonly string[];
  readonly pieceNumber: ReadonlyMap<string, number>;
}

/** Numbers the ids of a history. A holder that nothing is said of is apart; a cleaning of a piece without stays is left out. */
export function numberHistory(history: CustodyHistory): NumberedHistory {
  const { stays, holders } = history;
  const pieceNumber = new Map<string, number>();
  const holderNumber = new Map(holders.map(({ id }, index) => [id, index]));
  const holderIds = holders.map(({ id }) => id);
  const carries: Carries[] = holders.map((holder) => holder.carries);
  const holderCleanings: (readonly Moment[])[] = holders.map(({ cleanings }) => cleanings);
  const piece = new Int32Array(stays.length);
  const holder = new Int32Array(stays.length);
  const from = new Float64Array(stays.length);
  const to = new Float64Array(stays.length);
  stays.forEach((stay, index) => {
    let known = pieceNumber.get(stay.piece);
    if (known === undefined) {
      known = pieceNumber.size;
      pieceNumber.set(stay.piece, known);
    }
    let at = holderNumber.get(stay.holder);
    if (at === undefined) {
      at = holderIds.push(stay.holder) - 1;
      holderNumber.set(stay.holder, at);
      carries.push("apart");
      holderCleanings.push([]);
    }
    piece[index] = known;
    holder[index] = at;
    from[index] = stay.from;
    to[index] = stay.to ?? Number.POSITIVE_INFINITY;
  });
  const cleanings = history.cleanings.filter((cleaning) => pieceNumber.has(cleaning.piece));
  return {
    columns: {
      pieces: pieceNumber.size,
      piece,
      holder,
      from,
      to,
      carries,
      holderCleanings,
      cleaningPiece: Int32Array.from(cleanings, (cleaning) => pieceNumber.get(cleaning.piece) ?? 0),
      cleaningAt: Float64Array.from(cleanings, ({ at }) => at),
    },
    pieceIds: [...pieceNumber.keys()],
    holderIds,
    pieceNumber,
  };
}
