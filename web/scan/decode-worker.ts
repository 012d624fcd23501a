import wasmUrl from "zxing-wasm/reader/zxing_reader.wasm?url";
import { decodeFrame, type Frame, prepareDecoder } from "./decode-frame.ts";
import type { DecodeReply, DecodeRequest } from "./decoder.ts";

/** Runs in a worker of its own: the page stays free while frames are read. The decoder comes from our own server. */
const ready = prepareDecoder({ url: wasmUrl }).then(
  () => tell({ kind: "ready" }),
  (cause: unknown) => tell({ kind: "not loaded", cause: String(cause) }),
);

addEventListener("message", async (event: MessageEvent<DecodeRequest>) => {
  await ready;
  const { frame, withLinear } = event.data;
  tell({ kind: "read", reading: await reading(frame, withLinear) });
});

/** A frame that the decoder chokes on is a frame without a code; the next one comes in a moment. */
async function reading(frame: Frame, withLinear: boolean) {
  try {
    return await decodeFrame(frame, withLinear);
  } catch {
    return undefined;
  }
}

function tell(reply: DecodeReply): void {
  postMessage(reply);
}
