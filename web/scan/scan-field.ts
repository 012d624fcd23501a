/**
 * A field that asks for a scan: `data-scans="fill"` takes the text that was scanned into it, `data-scans="send"` also
 * sends its form. Everywhere else a scan is the page's own. The text comes by physical key, as every scan does, so the
 * host's keyboard layout changes nothing.
 */
export function fieldForScan(element: Element | undefined): HTMLInputElement | undefined {
  if (!(element instanceof HTMLInputElement) || !element.isConnected) return undefined;
  return element.dataset["scans"] && !element.readOnly && !element.disabled ? element : undefined;
}

/** Puts a scan into the field in place of what was there; its form is sent once the page has seen the text. */
export function fillByScan(field: HTMLInputElement, text: string): void {
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  if (field.dataset["scans"] === "send") setTimeout(() => field.form?.requestSubmit());
}
