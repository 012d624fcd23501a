/** What the read text stood on. A wedge tells this only when it sends an AIM identifier. */
export type Carrier = "data matrix" | "qr" | "linear" | "unknown" | "hand";

/** One reading, whatever brought it. The text is as it came; what it means is for the domain to say. */
export interface ScanEvent {
  readonly text: string;
  readonly carrier: Carrier;
  /** The code's own name, such as "DataMatrix" or "EAN13"; empty when the source cannot tell. */
  readonly symbology: string;
  readonly via: "wedge" | "camera" | "typed";
  /** Unused error correction, 0 (none left) to 1; only a camera reports it. */
  readonly uec?: number;
  /** Milliseconds since 1970-01-01T00:00:00Z, of the moment when the reading was complete. */
  readonly time: number;
  /** Names the device, so that two cameras or a keyboard can be told apart in the record. */
  readonly device: string;
}

export type ScanListener = (event: ScanEvent) => void;

/** The one port: wedge, camera and typing all look like this to a screen. */
export interface ScanSource {
  /** Delivers every later event to this listener, in order. A second call replaces the first listener. */
  listen(listener: ScanListener): void;
  /** Ends delivery and gives back whatever the source holds (camera, event handlers). */
  stop(): void;
}

const AIM = /^\]([A-Za-z])[0-9A-Za-z]/;
const AIM_CARRIER: Readonly<Record<string, readonly [Carrier, string]>> = {
  d: ["data matrix", "DataMatrix"],
  Q: ["qr", "QRCode"],
  A: ["linear", "Code39"],
  C: ["linear", "Code128"],
  E: ["linear", "EANUPC"],
  I: ["linear", "ITF"],
  F: ["linear", "Codabar"],
  G: ["linear", "Code93"],
};

/** Reads the AIM identifier that some wedges put in front (ISO/IEC 15424), without removing it. */
export function carrierFromAim(text: string): { carrier: Carrier; symbology: string } {
  const known = AIM_CARRIER[AIM.exec(text)?.[1] ?? ""];
  return known ? { carrier: known[0], symbology: known[1] } : { carrier: "unknown", symbology: "" };
}
