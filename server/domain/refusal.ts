import type { OverLimit } from "./cleaning/programme-limits.ts";
import type { Holder } from "./custody/holder.ts";
import type { WayOut } from "./custody/late-record.ts";
import type { Evidence } from "./evidence.ts";
import type { Uuid } from "./ids.ts";
import type { LabelReason, LabelVerdict } from "./label-check/label-verdict.ts";
import type { HoldKind } from "./pieces/piece-entries.ts";
import type { PieceFault } from "./pieces/piece-state.ts";
import type { TagRefusal } from "./tags/tag-state.ts";
import type { Instant } from "./time.ts";

/**
 * Why an act is not written: a code with the facts that led to it. All reasons are given at once.
 * `subject` is what the reason is about; names and wording are put to it where it is shown.
 */
export type Refusal =
  | { readonly code: "unknown-subject"; readonly subject: Uuid; readonly what: string }
  | {
      readonly code: "changed";
      readonly subject: Uuid;
      readonly what: "holder";
      readonly was: Holder;
      readonly is: Holder;
    }
  | {
      readonly code: "changed";
      readonly subject: Uuid;
      readonly what: "fitted in" | "version";
      readonly was: string | null;
      readonly is: string | null;
    }
  | { readonly code: "retired"; readonly subject: Uuid; readonly at: Instant }
  | {
      readonly code: "held";
      readonly subject: Uuid;
      readonly hold: HoldKind;
      readonly since: Instant;
      readonly by: Uuid;
      readonly version: number;
      /** The contamination event behind it. */
      readonly event?: Uuid;
    }
  | { readonly code: "soiled"; readonly subject: Uuid }
  | { readonly code: "label-not-read"; readonly subject: Uuid }
  | { readonly code: "fitted-elsewhere"; readonly subject: Uuid; readonly shell: Uuid }
  | { readonly code: "left-inside"; readonly subject: Uuid; readonly shell: Uuid }
  | { readonly code: "not-fitted-there"; readonly subject: Uuid; readonly shell: Uuid }
  | {
      readonly code: "place-in-shell-taken";
      readonly subject: Uuid;
      readonly shell: Uuid;
      readonly by: Uuid;
      /** When the other was in it, where that has ended. */
      readonly from?: Instant;
      readonly to?: Instant;
    }
  | { readonly code: "not-a-shell"; readonly subject: Uuid; readonly kind: string }
  | { readonly code: "not-a-layer"; readonly subject: Uuid; readonly kind: string }
  | {
      readonly code: "labels";
      readonly subject: Uuid;
      readonly shell: Uuid;
      readonly verdict: LabelVerdict;
      readonly reasons: readonly LabelReason[];
    }
  | { readonly code: "layer-missing"; readonly subject: Uuid; readonly layerKind: string }
  | { readonly code: "already-there"; readonly subject: Uuid; readonly holder: Holder }
  | { readonly code: "in-the-future"; readonly at: Instant; readonly now: Instant }
  | {
      readonly code: "does-not-fit-the-record";
      readonly subject: Uuid;
      readonly fault: PieceFault;
      /** What can be written instead. */
      readonly offers: readonly WayOut[];
    }
  | { readonly code: "serial-taken"; readonly subject: Uuid; readonly by: Uuid; readonly serial: string }
  | { readonly code: "name-taken"; readonly what: string; readonly name: string }
  | { readonly code: "code-bound"; readonly text: string; readonly by: Uuid }
  | { readonly code: "tag"; readonly subject: Uuid; readonly number: string; readonly refusal: TagRefusal }
  | {
      readonly code: "position-taken";
      readonly subject: Uuid;
      readonly position: string;
      readonly by: string;
    }
  | {
      readonly code: "unknown-position";
      readonly subject: Uuid;
      readonly position: string;
      readonly known: readonly string[];
    }
  | { readonly code: "hold-not-standing"; readonly subject: Uuid; readonly version: number }
  | {
      readonly code: "not-yours-to-lift";
      readonly subject: Uuid;
      readonly hold: HoldKind;
      readonly who: string;
    }
  | {
      readonly code: "cannot-correct";
      readonly subject: Uuid;
      readonly version: number;
      readonly why: "no such entry" | "corrected already" | "other kind";
    }
  | { readonly code: "repeated-id"; readonly act: Uuid }
  | { readonly code: "closed"; readonly subject: Uuid; readonly what: string }
  /** A place is closed only when nothing is there any more. */
  | { readonly code: "not-empty"; readonly subject: Uuid; readonly pieces: number }
  | { readonly code: "last-manager"; readonly subject: Uuid }
  | { readonly code: "ends-before-it-begins"; readonly from: Instant; readonly to: Instant }
  | { readonly code: "not-on-the-list"; readonly subject: Uuid; readonly trace: Uuid }
  | { readonly code: "reason-needed"; readonly outcome: string }
  | { readonly code: "without-outcome"; readonly subject: Uuid; readonly pieces: number }
  | { readonly code: "nothing-to-trace" }
  | { readonly code: "not-a-bag"; readonly subject: Uuid }
  /** Nothing is on record with the member whose bag is packed. */
  | { readonly code: "holds-nothing"; readonly subject: Uuid }
  | { readonly code: "unknown-contaminant"; readonly kind: string }
  /** What somebody saw at an event is not taken off by everybody. */
  | {
      readonly code: "seen-at-event";
      readonly subject: Uuid;
      readonly event: Uuid;
      readonly evidence: Evidence;
    }
  | { readonly code: "role"; readonly needs: readonly string[] }
  | { readonly code: "washed-apart"; readonly subject: Uuid; readonly shell: Uuid }
  | {
      readonly code: "shells-and-liners";
      readonly subject: Uuid;
      readonly shells: number;
      readonly liners: number;
    }
  | {
      readonly code: "not-so-cleaned";
      readonly subject: Uuid;
      readonly why: "by hand" | "not at all" | "proximity shell";
    }
  | {
      readonly code: "load-too-large";
      readonly subject: Uuid;
      readonly garments: number;
      readonly most: number;
    }
  | {
      readonly code: "over-limits";
      readonly subject: Uuid;
      readonly programme: string;
      readonly over: readonly OverLimit[];
    }
  /** `kinds` is what the contaminants are called. */
  | {
      readonly code: "to-a-specialist";
      readonly subject: Uuid;
      readonly event: Uuid;
      readonly kinds: readonly string[];
    }
  | {
      readonly code: "shares-no-load";
      readonly subject: Uuid;
      readonly event: Uuid;
      readonly kinds: readonly string[];
    }
  | { readonly code: "machine-there"; readonly subject: Uuid; readonly by: Uuid }
  | { readonly code: "no-programme"; readonly subject: Uuid }
  | { readonly code: "machine-faulty"; readonly subject: Uuid; readonly since: Instant }
  | { readonly code: "load-running"; readonly subject: Uuid; readonly since: Instant }
  | { readonly code: "load-over"; readonly subject: Uuid; readonly at: Instant }
  | {
      readonly code: "ended-early";
      readonly subject: Uuid;
      readonly since: Instant;
      readonly minutes: number;
    }
  | { readonly code: "length-unknown"; readonly subject: Uuid }
  | { readonly code: "moved-between"; readonly subject: Uuid; readonly holder: Holder; readonly at: Instant }
  | {
      readonly code: "not-there";
      readonly subject: Uuid;
      readonly holder: Holder;
      readonly was: Holder;
      readonly at: Instant;
    }
  | { readonly code: "nothing-to-do" };

export type RefusalCode = Refusal["code"];

/** What a decision comes to: entries to write, all or none, or every reason against it. */
export type Decided<Entries> = { readonly entries: Entries } | { readonly refusals: readonly Refusal[] };
