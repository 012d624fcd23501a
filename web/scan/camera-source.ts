import { decodedSize, videoUnderBox } from "./aiming-box.ts";
import { type CameraFault, cameraFault } from "./camera-fault.ts";
import { type CameraDevice, type CameraStream, hideStream, openStream, showStream } from "./camera-stream.ts";
import type { Frame, FrameReading } from "./decode-frame.ts";
import { type Decoder, startDecoder } from "./decoder.ts";
import type { ScanListener, ScanSource } from "./scan-event.ts";
import { countFrame, noVotes } from "./vote.ts";

/** Twenty frames a second find a tag as fast as sixty and leave the battery alone. */
const FRAME_MS = 50;
/** Makers' linear codes are looked for in every third frame. */
const LINEAR_EVERY = 3;

export interface Camera extends ScanSource {
  readonly device: CameraDevice;
  readonly devices: readonly CameraDevice[];
}
export interface CameraOptions {
  /** Another camera than the remembered one. */
  readonly deviceId?: string;
  /** Told when the camera fails later on; it is stopped by then. */
  readonly onFault: (fault: CameraFault) => void;
}
export type CameraStart = { readonly camera: Camera } | { readonly fault: CameraFault };

/**
 * Shows the camera in a video element and reads tags under the aiming corners. While the page is hidden the
 * camera is off, and it comes back with the page. Never throws: what goes wrong is a fault.
 */
export async function openCamera(video: HTMLVideoElement, options: CameraOptions): Promise<CameraStart> {
  const opened = await openStream(options.deviceId);
  if ("code" in opened) return { fault: opened };
  const decoder = startDecoder();
  await showStream(video, opened.stream);
  if (!(await decoder.isLoaded)) {
    decoder.stop();
    await hideStream(video, opened.stream);
    return { fault: cameraFault("decoder not loaded") };
  }
  return { camera: runCamera(video, opened, decoder, options.onFault) };
}

function runCamera(
  video: HTMLVideoElement,
  opened: CameraStream,
  decoder: Decoder,
  onFault: (fault: CameraFault) => void,
): Camera {
  let current: CameraStream | undefined = opened;
  let listener: ScanListener | undefined;
  let isStopped = false;

  const onLost = () => {
    stop();
    onFault(cameraFault("camera lost"));
  };
  const onVisibility = async () => {
    if (document.hidden) return pause();
    if (isStopped || current) return;
    const again = await openStream(opened.device.id);
    if ("code" in again) {
      stop();
      onFault(again);
    } else if (isStopped || document.hidden) await hideStream(video, again.stream);
    else {
      current = again;
      again.track.addEventListener("ended", onLost);
      await showStream(video, again.stream);
    }
  };
  const pause = () => {
    const paused = current;
    current = undefined;
    paused?.track.removeEventListener("ended", onLost);
    if (paused) void hideStream(video, paused.stream);
  };
  const stop = () => {
    isStopped = true;
    listener = undefined;
    document.removeEventListener("visibilitychange", onVisibility);
    pause();
    decoder.stop();
  };

  opened.track.addEventListener("ended", onLost);
  document.addEventListener("visibilitychange", onVisibility);
  readFrames(
    video,
    decoder,
    () => isStopped,
    (reading) => listener?.({ ...reading, via: "camera", time: Date.now(), device: opened.device.label }),
  );
  return {
    device: opened.device,
    devices: opened.devices,
    listen: (next) => {
      listener = next;
    },
    stop,
  };
}

/** Takes the newest frame whenever the decoder is free; several frames have to agree before a reading counts. */
function readFrames(
  video: HTMLVideoElement,
  decoder: Decoder,
  isStopped: () => boolean,
  accept: (reading: FrameReading) => void,
): void {
  const canvas = document.createElement("canvas");
  let votes = noVotes;
  let count = 0;
  let last = Number.NEGATIVE_INFINITY;
  const onFrame = async () => {
    if (isStopped()) return;
    const now = performance.now();
    const frame = now - last >= FRAME_MS && !decoder.isBusy() ? grab(video, canvas) : undefined;
    if (frame) {
      last = now;
      count += 1;
      const reading = await decoder.read(frame, count % LINEAR_EVERY === 0);
      const counted = countFrame(votes, reading?.text, performance.now());
      votes = counted.state;
      if (reading && counted.isAccepted && !isStopped()) accept(reading);
    }
    next();
  };
  // Without requestVideoFrameCallback (older Firefox) the same frame may be looked at twice, which is harmless.
  const next = () => {
    if ("requestVideoFrameCallback" in video && !video.paused) video.requestVideoFrameCallback(onFrame);
    else setTimeout(onFrame, FRAME_MS);
  };
  next();
}

/** Cuts out what lies under the corners; undefined while the video has no picture yet. */
function grab(video: HTMLVideoElement, canvas: HTMLCanvasElement): Frame | undefined {
  if (video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA || video.videoWidth === 0) return undefined;
  const cut = videoUnderBox(
    { width: video.videoWidth, height: video.videoHeight },
    { width: video.clientWidth, height: video.clientHeight },
  );
  const { width, height } = decodedSize(cut);
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (!context || width === 0 || height === 0) return undefined;
  context.drawImage(video, cut.left, cut.top, cut.width, cut.height, 0, 0, width, height);
  return context.getImageData(0, 0, width, height);
}
