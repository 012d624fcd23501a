import { uuidV7 } from "./uuid-v7.ts";

/** Where a browser keeps a few short texts: localStorage, or anything like it. */
export interface Shelf {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

/** This device as acts name it: an id that stays, and a number for each act that it sent. */
export interface Device {
  readonly id: string;
  /** Takes the next number; two acts of a device never have the same one, also from two tabs in turn. */
  takeSeq(): number;
}

const ID = "layertrail.device";
const SEQ = "layertrail.device-seq";

/** Opens the device's memory. Where nothing may be kept (a private window), the device is new for this page. */
export function openDevice(shelf: Shelf, nowMs: number): Device {
  const memory = new Map<string, string>();
  const read = (key: string) => {
    try {
      return shelf.getItem(key) ?? memory.get(key) ?? null;
    } catch {
      return memory.get(key) ?? null;
    }
  };
  const keep = (key: string, value: string) => {
    memory.set(key, value);
    try {
      shelf.setItem(key, value);
    } catch {
      // Kept for this page alone.
    }
  };
  const id = read(ID) ?? uuidV7(nowMs);
  keep(ID, id);
  return {
    id,
    takeSeq() {
      const last = Number(read(SEQ));
      const next = (Number.isSafeInteger(last) && last > 0 ? last : 0) + 1;
      keep(SEQ, String(next));
      return next;
    },
  };
}
