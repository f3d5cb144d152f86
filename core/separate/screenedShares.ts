import type { Coverage } from './coverage.ts';

/** Where less than this is left of an ink's room its share is rounding, and no dot. */
const LEAST = 1e-4;

/**
 * What each ink must cover so that, screened apart from the others, it shows the share asked for: one plane an ink in pull
 * order, 0 to 255, without bare. `coverage` holds areas side by side; screens at different angles overlap by chance
 * (areas multiply: M. E. Demichel, 1924), and there a later ink hides `hides[j]` (0 to 1) of what lies under it. So
 *   c_i = a_i / Π (1 − hides_j c_j) over the inks j pulled after i, at most 1.
 * Throws unless there is one `hides` an ink.
 */
export function screenedShares(coverage: Coverage, hides: readonly number[]): Uint8Array[] {
  const inks = coverage.planes.slice(1);
  if (hides.length !== inks.length)
    throw new RangeError(`${inks.length} inks need as many hidden shares, not ${hides.length}.`);
  const points = coverage.width * coverage.height;
  const out = inks.map(() => new Uint8Array(points));
  for (let i = 0; i < points; i++) {
    let room = 1;
    for (let k = inks.length - 1; k >= 0; k--) {
      const share = inks[k]![i]! / 255;
      if (share === 0) continue;
      const cover = room <= LEAST ? 0 : Math.min(1, share / room);
      out[k]![i] = Math.round(255 * cover);
      room *= 1 - hides[k]! * cover;
    }
  }
  return out;
}
