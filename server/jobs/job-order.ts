import type { CardMedia } from "../../labels/layout/card-pages.ts";
import type { SheetName } from "../../labels/layout/media.ts";
import type { PrinterName } from "../../labels/layout/printer.ts";
import type { TagWords } from "../../labels/layout/tag-content.ts";
import type { Db } from "../cases/database-handle.ts";
import type { JobLane, JobReason } from "../cases/job-record.ts";
import type { ActEnvelope } from "../cases/run-act.ts";
import type { AccountId, MemberId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";

/** Where and how a run is printed. */
export interface PrintChoice {
  readonly stock: TagStock | CardMedia;
  readonly dpi: PrinterName;
  /** Places of the first sheet that are empty already. */
  readonly used: number;
  readonly cutGapMm: number;
  readonly words: TagWords;
}
export type TagStock = "roll" | SheetName;

/** Which tags: spare ones, one for each piece, or those of an earlier run that are on no piece yet. */
export type TagsWanted =
  | { readonly spare: number }
  | { readonly pieces: readonly PieceId[] }
  | { readonly again: Uuid };

export interface CardsWanted {
  readonly places: readonly PlaceId[];
  readonly members: readonly MemberId[];
  readonly accounts: readonly AccountId[];
  readonly actions: boolean;
}

/** Long work, as it is told to the thread that does it. `about` is the upload or the print run. */
export type JobOrder =
  | { readonly what: "read file"; readonly about: Uuid }
  | {
      readonly what: "bring in file";
      readonly about: Uuid;
      readonly digest: string;
      readonly envelope: ActEnvelope;
    }
  | {
      readonly what: "draw tags";
      readonly about: Uuid;
      readonly tags: TagsWanted;
      readonly choice: PrintChoice;
      readonly envelope: ActEnvelope;
    }
  | {
      readonly what: "draw cards";
      readonly about: Uuid;
      readonly cards: CardsWanted;
      readonly choice: PrintChoice;
      readonly envelope: ActEnvelope;
    }
  | { readonly what: "mark printed"; readonly about: Uuid; readonly envelope: ActEnvelope };

/** Work of one lane is done one after the other. */
export const LANE_OF: Readonly<Record<JobOrder["what"], JobLane>> = {
  "read file": "import",
  "bring in file": "import",
  "draw tags": "print",
  "draw cards": "print",
  "mark printed": "print",
};

/** How far a job has come; `total` 0 says that it cannot be told. */
export interface JobProgress {
  readonly step: string;
  readonly done: number;
  readonly total: number;
}

/** What a job has to work with, in whatever thread it runs. */
export interface JobSetting {
  readonly db: Db;
  readonly now: () => number;
  readonly onProgress: (progress: JobProgress) => void;
}

/** How a job ended by itself. What it made stands at what it was about. */
export type JobEnd = { readonly done: true } | { readonly reasons: readonly JobReason[] };
