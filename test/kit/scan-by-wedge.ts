import type { Page } from "playwright-core";

/**
 * Sends trusted key events through the browser's own input path. Their time stamps are exact, as an operating
 * system gives them; when they arrive is left to the machine, so a loaded one does not turn a scan into typing.
 */
export async function scanByWedge(
  page: Page,
  text: string,
  { everyMs = 8, end = "Enter" }: { everyMs?: number; end?: "Enter" | "" | undefined } = {},
): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const start = Date.now();
  const send = (type: "keyDown" | "keyUp", char: string, index: number) => {
    const code = /^[A-Z]$/.test(char) ? `Key${char}` : /^\d$/.test(char) ? `Digit${char}` : char;
    const text = type === "keyUp" ? "" : char === "Enter" ? "\r" : char;
    return session.send("Input.dispatchKeyEvent", {
      type,
      key: char,
      code,
      windowsVirtualKeyCode: char === "Enter" ? 13 : char.charCodeAt(0),
      ...(text ? { text } : {}),
      modifiers: code.startsWith("Key") ? 8 : 0,
      timestamp: (start + index * everyMs) / 1_000,
    });
  };
  const sent: Promise<unknown>[] = [];
  for (const [index, char] of [...text, ...(end ? [end] : [])].entries()) {
    sent.push(send("keyDown", char, index), send("keyUp", char, index));
    await new Promise((done) => setTimeout(done, everyMs));
  }
  await Promise.all(sent);
  await page.waitForTimeout(200);
  await session.detach();
}
