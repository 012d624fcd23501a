import type { Page } from "playwright-core";

interface WedgeSet {
  /** Milliseconds from key to key. */
  readonly everyMs?: number;
  readonly end?: "Enter" | "" | undefined;
}

/**
 * Sends trusted key events through the browser's own input path. Their time stamps are exact, as an operating
 * system gives them; when they arrive is left to the machine, so a loaded one does not turn a scan into typing.
 */
export function scanByWedge(page: Page, text: string, set: WedgeSet = {}): Promise<void> {
  return scanInTurn(page, [text], 0, set);
}

/** Scans several texts, the first keys of each so many milliseconds after those of the one before. */
export async function scanInTurn(
  page: Page,
  texts: readonly string[],
  apartMs: number,
  { everyMs = 8, end = "Enter" }: WedgeSet = {},
): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const start = Date.now();
  const send = (type: "keyDown" | "keyUp", char: string, time: number) => {
    const code = /^[A-Z]$/.test(char) ? `Key${char}` : /^\d$/.test(char) ? `Digit${char}` : char;
    const text = type === "keyUp" ? "" : char === "Enter" ? "\r" : char;
    return session.send("Input.dispatchKeyEvent", {
      type,
      key: char,
      code,
      windowsVirtualKeyCode: char === "Enter" ? 13 : char.charCodeAt(0),
      ...(text ? { text } : {}),
      modifiers: code.startsWith("Key") ? 8 : 0,
      timestamp: time / 1_000,
    });
  };
  const sent: Promise<unknown>[] = [];
  for (const [turn, text] of texts.entries()) {
    const keys = [...text, ...(end ? [end] : [])];
    const first = start + turn * apartMs;
    // All keys of a text go out together, once the last is due: a stall between two of them would be no scanner's.
    await new Promise((done) => setTimeout(done, first + keys.length * everyMs - Date.now()));
    for (const [index, char] of keys.entries()) {
      const time = first + index * everyMs;
      sent.push(send("keyDown", char, time), send("keyUp", char, time));
    }
  }
  await Promise.all(sent);
  await page.waitForTimeout(200);
  await session.detach();
}
