/** The four sounds of the bench; told apart by rhythm and length, not by pitch alone. */
export type SoundName = "stitch" | "knot" | "snap" | "slack";

export interface Note {
  /** Milliseconds after the sound begins. */
  readonly startMs: number;
  readonly lengthMs: number;
  readonly hz: number;
  readonly shape: "sine" | "triangle" | "square";
  /** Share of full loudness, 0 to 1. */
  readonly loudness: number;
  /** How far and how often the pitch wavers. */
  readonly waver?: { readonly hz: number; readonly perSecond: number };
}
export interface Score {
  readonly notes: readonly Note[];
  /** For navigator.vibrate: on, off, on, … in milliseconds. */
  readonly vibration: readonly number[];
}

const knock = (startMs: number): Note => ({ startMs, lengthMs: 70, hz: 520, shape: "square", loudness: 0.5 });

export const SCORES: Readonly<Record<SoundName, Score>> = {
  /** A piece was taken: one tick. */
  stitch: {
    notes: [{ startMs: 0, lengthMs: 40, hz: 1_800, shape: "triangle", loudness: 0.6 }],
    vibration: [40],
  },
  /** An act was written: two rising notes. */
  knot: {
    notes: [
      { startMs: 0, lengthMs: 110, hz: 880, shape: "triangle", loudness: 0.6 },
      { startMs: 130, lengthMs: 170, hz: 1_320, shape: "triangle", loudness: 0.6 },
    ],
    vibration: [60, 60, 120],
  },
  /** Stopped: three short low knocks. */
  snap: { notes: [knock(0), knock(140), knock(280)], vibration: [90, 50, 90, 50, 90] },
  /** Unknown or cannot tell: one long wavering note. */
  slack: {
    notes: [
      { startMs: 0, lengthMs: 700, hz: 740, shape: "sine", loudness: 0.6, waver: { hz: 60, perSecond: 6 } },
    ],
    vibration: [400],
  },
};
