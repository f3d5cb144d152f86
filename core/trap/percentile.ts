/** The 50th and the 95th percentile. */
export interface Spread {
  readonly p50: number;
  readonly p95: number;
}

/** By the nearest rank: the smallest value that at least that share of the values do not exceed. Of nothing: 0. */
export function percentile(values: readonly number[], share: number): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length - 1e-9) - 1)]!;
}

export const spreadOf = (values: readonly number[]): Spread => ({
  p50: percentile(values, 0.5),
  p95: percentile(values, 0.95),
});
