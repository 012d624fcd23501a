export type CameraFaultCode =
  | "insecure page"
  | "no camera"
  | "permission refused"
  | "camera in use"
  | "camera lost"
  | "decoder not loaded";

/** Why the camera cannot scan. Wedge and typing are not touched by it, and each `next` says so. */
export interface CameraFault {
  readonly code: CameraFaultCode;
  readonly what: string;
  readonly why: string;
  readonly next: string;
}

const FAULTS: Readonly<Record<CameraFaultCode, Omit<CameraFault, "code">>> = {
  "insecure page": {
    what: "The camera cannot be used on this page.",
    why: "Browsers give a camera only to pages opened with https:// or on this computer itself.",
    next: "Open the page by its https:// address. A scanner or typing the number works here.",
  },
  "no camera": {
    what: "No camera was found.",
    why: "This device has none, or it is switched off or unplugged.",
    next: "Plug it in and open the camera again, or scan with a scanner or type the number.",
  },
  "permission refused": {
    what: "The camera was not allowed.",
    why: "The browser was told not to give this page the camera.",
    next: "Allow the camera beside the address and open it again, or scan with a scanner or type the number.",
  },
  "camera in use": {
    what: "The camera did not start.",
    why: "Another program may be using it.",
    next: "Close that program and open the camera again, or scan with a scanner or type the number.",
  },
  "camera lost": {
    what: "The camera stopped.",
    why: "It was unplugged or taken by another program.",
    next: "Open the camera again, or scan with a scanner or type the number. What was scanned is kept.",
  },
  "decoder not loaded": {
    what: "The camera runs but cannot read tags.",
    why: "The file that reads them did not arrive from the server.",
    next: "Check the network and open the camera again, or scan with a scanner or type the number.",
  },
};

export function cameraFault(code: CameraFaultCode): CameraFault {
  return { code, ...FAULTS[code] };
}

/** Tells from the name of a getUserMedia error what went wrong (Media Capture and Streams, W3C, section 10.3). */
export function faultFromError(name: string): CameraFault {
  switch (name) {
    case "NotAllowedError":
    case "SecurityError":
      return cameraFault("permission refused");
    case "NotFoundError":
    case "OverconstrainedError":
      return cameraFault("no camera");
    default:
      return cameraFault("camera in use");
  }
}
