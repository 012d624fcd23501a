/** The frame of the camera: the live picture is put in by the screen; corners say where the tag should lie. */
import type { ComponentChildren } from "preact";

export type CameraPanelProps = {
  /** The video element, made by the screen. */
  readonly children: ComponentChildren;
  /** "Hold the tag in the corners.": what to do now. */
  readonly says: string;
  readonly actions?: ComponentChildren | undefined;
  /** A code was read: the corners close to a whole frame. */
  readonly read?: boolean | undefined;
};

/** Draws the frame, the words under it and the buttons (torch, other camera, close). */
export function CameraPanel(props: CameraPanelProps) {
  return (
    <section class={`camera-panel${props.read ? " camera-read" : ""}`}>
      <div class="camera-picture">
        {props.children}
        <svg class="camera-corners" viewBox="0 0 200 100" aria-hidden="true">
          <path d="M2 26V2H26M174 2H198V26M198 74V98H174M26 98H2V74" />
        </svg>
      </div>
      <p class="camera-says" role="status">
        {props.says}
      </p>
      {props.actions ? <div class="camera-actions">{props.actions}</div> : null}
    </section>
  );
}
