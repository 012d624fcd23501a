/**
 * Decodes the digits that a wedge typed on the keypad while it held Alt (its answer to every layout).
 * 1 to 126 mean the same in every code page; with a leading zero 160 to 255 are Latin-1 as well.
 * Anything else depends on the host's code page: U+FFFD says that it could not be read.
 */
export function altCharacter(digits: string): string {
  const value = Number(digits) % 256;
  const isSame = value > 0 && value < 127;
  const isLatin = digits.startsWith("0") && value >= 160;
  return isSame || isLatin ? String.fromCharCode(value) : "\uFFFD";
}
