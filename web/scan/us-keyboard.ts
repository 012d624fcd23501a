/**
 * The US layout by physical key: what a US-configured wedge meant, whatever the host made of it.
 * Codes are those of UI Events KeyboardEvent code Values (W3C).
 */
const PUNCTUATION: Readonly<Record<string, readonly [string, string]>> = {
  Backquote: ["`", "~"],
  Minus: ["-", "_"],
  Equal: ["=", "+"],
  BracketLeft: ["[", "{"],
  BracketRight: ["]", "}"],
  Backslash: ["\\", "|"],
  Semicolon: [";", ":"],
  Quote: ["'", '"'],
  Comma: [",", "<"],
  Period: [".", ">"],
  Slash: ["/", "?"],
  Space: [" ", " "],
  NumpadDecimal: [".", "."],
  NumpadAdd: ["+", "+"],
  NumpadSubtract: ["-", "-"],
  NumpadMultiply: ["*", "*"],
  NumpadDivide: ["/", "/"],
};
const SHIFTED_DIGITS = ")!@#$%^&*(";

/** Gives the character of a physical key on a US keyboard, or undefined when the key makes none there. */
export function usCharacter(code: string, shiftKey: boolean): string | undefined {
  const letter = /^Key([A-Z])$/.exec(code)?.[1];
  if (letter) return shiftKey ? letter : letter.toLowerCase();
  const digit = /^Digit(\d)$/.exec(code)?.[1];
  if (digit) return shiftKey ? SHIFTED_DIGITS[Number(digit)] : digit;
  const pad = numpadDigit(code);
  if (pad) return pad;
  return PUNCTUATION[code]?.[shiftKey ? 1 : 0];
}

/** Gives the digit of a keypad key, or undefined for any other key. */
export function numpadDigit(code: string): string | undefined {
  return /^Numpad(\d)$/.exec(code)?.[1];
}
