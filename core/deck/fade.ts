/**
 * Share of the concave's depth left `past` mm into a kick: 1 − (6p⁵ − 15p⁴ + 10p³), p = past/length. Its first and second
 * derivatives are 0 at both ends, so that the wood shows no crease where the fade begins and ends.
 */
export function fadeShare(past: number, length: number): number {
  if (length <= 0 || past <= 0) return 1;
  if (past >= length) return 0;
  const p = past / length;
  return 1 - p * p * p * (p * (p * 6 - 15) + 10);
}

/** Its derivative, 1/mm. */
export function fadeSlope(past: number, length: number): number {
  if (length <= 0 || past <= 0 || past >= length) return 0;
  const p = past / length;
  return (-30 * p * p * (1 - p) * (1 - p)) / length;
}
