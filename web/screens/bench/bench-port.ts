import type { PieceId } from "../../../server/domain/ids.ts";
import type { BenchList } from "../../../server/domain/reassemble/bench-list.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { ScanEvent } from "../../scan/scan-event.ts";
import type { RefusalWords } from "./bench-run.ts";

/** What an act came to: written, refused with every reason, or a fault that left nothing written. */
export type ActReply =
  | { readonly written: { readonly id: string; readonly at: number } }
  | { readonly refused: readonly RefusalWords[] }
  | { readonly fault: string };

/** What the bench asks of the server. A scan that fails rejects with a sentence for the person. */
export interface BenchPort {
  scan(event: ScanEvent, mode: string): Promise<ScanAnswer>;
  /** Sends an act; `at` is when it happened, in milliseconds, where that was earlier than now. */
  act(command: string, body: object, at?: number): Promise<ActReply>;
  /** Asks for the pieces of a machine's last load. */
  lastLoad(machine: string): Promise<readonly PieceId[]>;
  /** Asks what the record says of pieces that lie on the bench. */
  benchList(pieces: readonly PieceId[]): Promise<BenchList>;
  readonly now: () => number;
}
