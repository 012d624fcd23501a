/** One measured number beside what it ought to be. */
export interface Figure {
  readonly what: string;
  readonly value: number;
  readonly unit: "ms" | "s" | "/s" | "%" | "kB" | "MB";
  /** Absent: told for comparison alone. */
  readonly target?: { readonly is: "at most" | "at least"; readonly value: number };
  /** How it came about: counts, spread, what it was measured beside. */
  readonly note?: string;
}

/** What one part of the benchmark came to. */
export interface Measured {
  readonly part: string;
  readonly figures: readonly Figure[];
}

/** Tells whether a figure keeps to its target; one without a target does. */
export function isHeld({ value, target }: Figure): boolean {
  if (!target) return true;
  return target.is === "at most" ? value <= target.value : value >= target.value;
}

/** Writes figures as lines of a table: figure, value, target, whether it was held, and how it came about. */
export function writeTable(figures: readonly Figure[]): string[] {
  const rows = figures.map((figure) => [
    figure.what,
    `${roundedTo3(figure.value)} ${figure.unit}`,
    figure.target ? `${figure.target.is === "at most" ? "≤" : "≥"} ${figure.target.value}` : "",
    figure.target ? (isHeld(figure) ? "held" : "MISSED") : "",
    figure.note ?? "",
  ]);
  const widths = [0, 1, 2, 3].map((column) => Math.max(0, ...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join("  ")
      .trimEnd(),
  );
}

function roundedTo3(value: number): string {
  return value >= 100 ? String(Math.round(value)) : String(Number(value.toPrecision(3)));
}

/** How long each of many questions took, in milliseconds. */
export interface Waits {
  readonly count: number;
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
  readonly max: number;
}

/** Sums up waits by the nearest rank: the p99 is the least wait that 99 of 100 do not exceed. */
export function sumUp(waits: readonly number[]): Waits {
  const sorted = waits.toSorted((a, b) => a - b);
  const rank = (share: number) => sorted[Math.max(0, Math.ceil(sorted.length * share) - 1)] ?? 0;
  return { count: sorted.length, p50: rank(0.5), p95: rank(0.95), p99: rank(0.99), max: rank(1) };
}

/** Says the spread of waits in words beside a figure. */
export function saySpread({ count, p50, p95, p99, max }: Waits): string {
  const [half, most, nearly, all] = [p50, p95, p99, max].map(roundedTo3);
  return `${count} times, p50 ${half}, p95 ${most}, p99 ${nearly}, slowest ${all} ms`;
}
