/** The camera over the bench: aiming corners, what it reads goes to the bench, and what to do when it cannot. */
import { useEffect, useRef, useState } from "preact/hooks";
import { Notice } from "../../look/notice.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";
import type { CameraFault } from "../../scan/camera-fault.ts";
import { type Camera, openCamera } from "../../scan/camera-source.ts";
import type { ScanEvent } from "../../scan/scan-event.ts";

export interface CameraDialogProps {
  readonly open: boolean;
  readonly say: Words;
  readonly onScan: (event: ScanEvent) => void;
  readonly onClose: () => void;
}

export function CameraDialog(props: CameraDialogProps) {
  const { open, say } = props;
  const video = useRef<HTMLVideoElement>(null);
  const [fault, setFault] = useState<CameraFault>();
  const handlers = useRef(props);
  handlers.current = props;
  useEffect(() => {
    if (!open || !video.current) return;
    let camera: Camera | undefined;
    let isOver = false;
    setFault(undefined);
    void openCamera(video.current, { onFault: setFault }).then((started) => {
      if ("fault" in started) return setFault(started.fault);
      if (isOver) return started.camera.stop();
      camera = started.camera;
      camera.listen((event) => {
        handlers.current.onScan(event);
        handlers.current.onClose();
      });
    });
    return () => {
      isOver = true;
      camera?.stop();
    };
  }, [open]);
  return (
    <Dialog open={open} onClose={props.onClose} title={say.scanATag} closeLabel={say.close}>
      {fault ? (
        <Notice kind="fault" head={fault.what} live="assertive">
          {`${fault.why} ${say.next} ${fault.next}`}
        </Notice>
      ) : (
        <p class="camera-hint">{say.holdCamera}</p>
      )}
      <div class="camera-view">
        <video ref={video} class="camera-video" playsinline muted />
        <span class="camera-aim" aria-hidden="true" />
      </div>
    </Dialog>
  );
}
