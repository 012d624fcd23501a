/** How far long work has come. `total` is an estimate. */
export interface Progress {
  readonly phase: "acts" | "entries" | "tables" | "characters" | "rows" | "tags";
  readonly done: number;
  readonly total: number;
}
export type OnProgress = (progress: Progress) => void;
