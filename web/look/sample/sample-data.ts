/** Invented people, tags and code modules for the sample page. */
import { words } from "../words.ts";

export const W = words("US");

export const INEZ = { name: "Inez Calloway", role: W.technician };
export const ODILE = { name: "Odile Verrill", role: W.programManager };

export const SHELL_TAG = "C7K3 F92C XTKK";
export const LINER_TAG = "HJ9V 2939 03KX";
export const OWN_LINER_TAG = "KD0R T429 TH33";

export const SHELL_MODULES = modules("aaaaa6f3cf0cd1198ca8acff80a499b7dd789a63bac29251f7c6d7dd8202ffff");
export const LINER_MODULES = modules("aaaaa90d9bf4b745eeb0eeeb8f989371a0e2a5cdb12294958a18c1059f7affff");

function modules(hex: string): readonly (readonly boolean[])[] {
  return (hex.match(/.{4}/g) ?? []).map((row) =>
    [...Number.parseInt(row, 16).toString(2).padStart(16, "0")].map((bit) => bit === "1"),
  );
}

export const nothing = () => undefined;
