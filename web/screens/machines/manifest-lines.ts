/** Parts what was pasted from a manifest into numbers: one a line, or parted by commas or semicolons; each once. */
export function linesOf(text: string): readonly string[] {
  const lines = text.split(/[\n,;]+/).map((line) => line.trim());
  return [...new Set(lines.filter((line) => line !== ""))];
}
