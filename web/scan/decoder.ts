import type { Frame, FrameReading } from "./decode-frame.ts";

export interface DecodeRequest {
  readonly frame: Frame;
  readonly withLinear: boolean;
}
export type DecodeReply =
  | { readonly kind: "ready" }
  | { readonly kind: "not loaded"; readonly cause: string }
  | { readonly kind: "read"; readonly reading: FrameReading | undefined };

export interface Decoder {
  /** Resolves to true when the decoder file is there, to false when it cannot be had. */
  readonly isLoaded: Promise<boolean>;
  /** Whether a frame is being read; frames are never queued, the next one is newer anyway. */
  isBusy(): boolean;
  read(frame: Frame, withLinear: boolean): Promise<FrameReading | undefined>;
  stop(): void;
}

/** Starts the decoder in a worker. */
export function startDecoder(): Decoder {
  const worker = new Worker(new URL("./decode-worker.ts", import.meta.url), { type: "module" });
  let answer: ((reading: FrameReading | undefined) => void) | undefined;
  const isLoaded = new Promise<boolean>((resolve) => {
    worker.addEventListener("message", (event: MessageEvent<DecodeReply>) => {
      const reply = event.data;
      if (reply.kind === "read") settle(reply.reading);
      else resolve(reply.kind === "ready");
    });
    worker.addEventListener("error", () => {
      resolve(false);
      settle(undefined);
    });
  });
  const settle = (reading: FrameReading | undefined) => {
    answer?.(reading);
    answer = undefined;
  };
  return {
    isLoaded,
    isBusy: () => answer !== undefined,
    read: (frame, withLinear) =>
      new Promise((resolve) => {
        answer = resolve;
        worker.postMessage({ frame, withLinear } satisfies DecodeRequest, [frame.data.buffer]);
      }),
    stop: () => {
      worker.terminate();
      settle(undefined);
    },
  };
}
