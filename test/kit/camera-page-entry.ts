import type { CameraFault } from "../../web/scan/camera-fault.ts";
import { type Camera, openCamera } from "../../web/scan/camera-source.ts";
import type { ScanEvent } from "../../web/scan/scan-event.ts";

declare global {
  interface Window {
    cameraPage: {
      scans: ScanEvent[];
      faults: CameraFault[];
      camera?: Camera;
      open: () => Promise<void>;
      track: () => MediaStreamTrack | undefined;
    };
  }
}

const video = document.querySelector("video") as HTMLVideoElement;
const page: Window["cameraPage"] = {
  scans: [],
  faults: [],
  track: () => (video.srcObject instanceof MediaStream ? video.srcObject.getVideoTracks()[0] : undefined),
  open: async () => {
    const started = await openCamera(video, { onFault: (fault) => page.faults.push(fault) });
    if ("fault" in started) page.faults.push(started.fault);
    else {
      page.camera = started.camera;
      started.camera.listen((event) => page.scans.push(event));
    }
  },
};
window.cameraPage = page;
