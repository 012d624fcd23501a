import type { ModelId } from "../ids.ts";
import type { MadeOn } from "../time.ts";

/**
 * What the maker's label on one piece says, as printed. `undefined` means unknown: not yet read, or not legible.
 * Serial and lot are two things: a serial names one piece, a lot never does. The cut number is never compared.
 */
export interface MakersLabel {
  readonly maker?: string;
  readonly modelName?: string;
  /** Size as printed, for example `46 32 R`. */
  readonly size?: string;
  /** Pattern: men's, women's, … as the maker prints it. On many labels "cut". */
  readonly pattern?: string;
  /** On a liner: the code it is. On a shell: the code it takes, where the label says so. */
  readonly linerCode?: string;
  readonly serial?: string;
  readonly lot?: string;
  readonly cutNumber?: string;
  readonly madeOn?: MadeOn;
  readonly materials?: string;
}

/** Whether somebody has read the maker's label of a piece: unread differs from read and not legible. */
export type LabelReading = "not yet read" | "read" | "not legible";

/** One row of the model table: what a shell model takes, with who says so. */
export interface ModelTakes {
  readonly shellModel: ModelId;
  readonly layerKind: string;
  /** Either a model or a liner code names what fits. */
  readonly takesModel?: ModelId;
  readonly takesLinerCode?: string;
  /** Name of `takesModel`, for showing; never compared. */
  readonly takesModelName?: string;
}
