/** Fractions of a source point that places are rounded down to. */
const FRACTIONS = 2048;

/**
 * For each fraction of a source point the weights of the four points around, in 2048ths and in sum 2048: cubic convolution with
 * a = −1/2, which runs through its points and keeps slopes straight (R. Keys, "Cubic convolution interpolation for digital
 * image processing", 1981). What rounding leaves over goes to the nearer of the middle two.
 */
export const CUBIC: Int16Array = (() => {
  const weights = new Int16Array(4 * FRACTIONS);
  for (let f = 0; f < FRACTIONS; f++) {
    const t = f / FRACTIONS;
    const own = [
      -0.5 * t + t ** 2 - 0.5 * t ** 3,
      1 - 2.5 * t ** 2 + 1.5 * t ** 3,
      0.5 * t + 2 * t ** 2 - 1.5 * t ** 3,
      -0.5 * t ** 2 + 0.5 * t ** 3,
    ].map((w) => Math.round(w * FRACTIONS));
    const left = FRACTIONS - own.reduce((sum, w) => sum + w, 0);
    own[t < 0.5 ? 1 : 2]! += left;
    weights.set(own, 4 * f);
  }
  return weights;
})();
