import type { Uuid } from "../domain/ids.ts";

/** One thing in which the database is not what the ledger says, with the place where it was found. */
export type Finding =
  /** Positions from `position` to `through` have no act. */
  | { readonly code: "act-missing"; readonly position: number; readonly through: number }
  /** The act's own facts, or what its entries say, are not what was bound when it was written. */
  | {
      readonly code: "act-changed";
      readonly position: number;
      readonly act: Uuid;
      readonly entries?: EntryKeys;
    }
  /** Position, digest and time of the act do not give its hash. */
  | { readonly code: "hash-differs"; readonly position: number; readonly act: Uuid }
  /** The act names another hash before it than the one before it has: that one was written anew. */
  | { readonly code: "chain-broken"; readonly position: number; readonly act: Uuid }
  | { readonly code: "time-goes-back"; readonly position: number; readonly act: Uuid }
  | EntryCountDiffers
  /** The head of the ledger is not its last act: acts at the end were taken away or put there by hand. */
  | { readonly code: "head-differs"; readonly head: number; readonly last: number }
  | { readonly code: "seal-differs"; readonly position: number; readonly day?: string }
  /** The ledger ends before the sealed position: its tail was taken away. */
  | { readonly code: "seal-beyond-end"; readonly position: number; readonly last: number }
  /** No act was recorded until the end of the sealed day. */
  | { readonly code: "seal-without-act"; readonly day: string }
  | (EntryFault & EntryKey)
  /** No entry of this version, though later ones are there. */
  | ({ readonly code: "entry-missing" } & EntryKey)
  | ({ readonly code: "entry-without-act"; readonly act: Uuid } & EntryKey)
  | {
      readonly code: "entries-contradict";
      readonly subject: Uuid;
      readonly version: number;
      readonly fault: string;
    }
  | { readonly code: "entries-unreadable"; readonly subject: Uuid; readonly why: string }
  | ({
      readonly code: "cell-differs";
      readonly column: string;
      readonly was: string;
      readonly should: string;
    } & RowKey)
  | ({ readonly code: "row-missing" } & RowKey)
  | ({ readonly code: "row-extra" } & RowKey);

export interface EntryKey {
  readonly subject: Uuid;
  readonly version: number;
}
export type EntryKeys = readonly EntryKey[];

export interface RowKey {
  readonly table: string;
  readonly subject: Uuid;
  /** The row's key, such as `n=3`, where the subject has several rows in the table. */
  readonly row: string;
}

interface EntryCountDiffers {
  readonly code: "entries-missing" | "entries-added";
  readonly position: number;
  readonly act: Uuid;
  readonly was: number;
  readonly should: number;
}

export type EntryFault =
  /** The bytes do not give the hash beside them. */
  | { readonly code: "entry-changed" }
  /** The row says that it is another entry than its bytes say. */
  | {
      readonly code: "entry-misplaced";
      readonly column: string;
      readonly was: string;
      readonly should: string;
    }
  | { readonly code: "entry-unreadable" }
  | { readonly code: "text-changed"; readonly name: string }
  | { readonly code: "text-missing"; readonly name: string }
  | { readonly code: "text-unknown"; readonly name: string };
