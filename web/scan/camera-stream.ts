import { type CameraFault, cameraFault, faultFromError } from "./camera-fault.ts";

export interface CameraDevice {
  readonly id: string;
  readonly label: string;
}
export interface CameraStream {
  readonly stream: MediaStream;
  readonly track: MediaStreamTrack;
  readonly device: CameraDevice;
  readonly devices: readonly CameraDevice[];
}

const REMEMBERED = "layertrail.camera";
const WIDTH = { ideal: 1920 };

/**
 * Opens the camera that was asked for, else the one that this browser used last, else the one that looks away
 * from the user. The one that opened is remembered. The list of cameras is complete only once one was allowed.
 */
export async function openStream(deviceId?: string): Promise<CameraStream | CameraFault> {
  const media = navigator.mediaDevices as MediaDevices | undefined;
  if (!window.isSecureContext || !media) return cameraFault("insecure page");
  const wanted = deviceId ?? readRemembered();
  const stream = await request(media, wanted);
  if (!(stream instanceof MediaStream)) return stream;
  const [track] = stream.getVideoTracks();
  if (!track) return cameraFault("no camera");
  const devices = await listCameras();
  const id = track.getSettings().deviceId ?? "";
  const device = devices.find((one) => one.id === id) ?? { id, label: track.label };
  remember(id);
  return { stream, track, device, devices };
}

export async function showStream(video: HTMLVideoElement, stream: MediaStream): Promise<void> {
  const { BrowserCodeReader } = await import("@zxing/browser");
  video.muted = true;
  video.playsInline = true;
  BrowserCodeReader.addVideoSource(video, stream);
  // Refused when the element leaves the page meanwhile; then there is nothing to show either.
  await video.play().catch(() => undefined);
}

export async function hideStream(video: HTMLVideoElement, stream: MediaStream): Promise<void> {
  for (const track of stream.getTracks()) track.stop();
  const { BrowserCodeReader } = await import("@zxing/browser");
  if (video.srcObject === stream) BrowserCodeReader.cleanVideoSource(video);
}

async function listCameras(): Promise<CameraDevice[]> {
  const { BrowserCodeReader } = await import("@zxing/browser");
  const found = await BrowserCodeReader.listVideoInputDevices();
  return found.map(({ deviceId, label }) => ({ id: deviceId, label }));
}

/** A remembered camera may be gone: then any that looks away from the user. */
async function request(media: MediaDevices, wanted: string | undefined): Promise<MediaStream | CameraFault> {
  const anyBack = { video: { facingMode: { ideal: "environment" }, width: WIDTH } };
  const choices = wanted ? [{ video: { deviceId: { exact: wanted }, width: WIDTH } }, anyBack] : [anyBack];
  let fault = cameraFault("no camera");
  for (const choice of choices) {
    try {
      return await media.getUserMedia(choice);
    } catch (error) {
      fault = faultFromError(error instanceof Error || error instanceof DOMException ? error.name : "");
      if (fault.code !== "no camera") return fault;
    }
  }
  return fault;
}

/** Storage may be switched off; then the choice is simply not remembered. */
function readRemembered(): string | undefined {
  try {
    return localStorage.getItem(REMEMBERED) ?? undefined;
  } catch {
    return undefined;
  }
}

function remember(id: string): void {
  try {
    if (id) localStorage.setItem(REMEMBERED, id);
  } catch {
    return;
  }
}
