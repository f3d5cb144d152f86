import { blankPlane, type Plane } from '../raster/index.ts';
import type { Mm } from '../units/index.ts';
import type { MoireInput } from './moire.ts';

/**
 * What the eye sees of a halftone pulled through a mesh: dots multiplied by threads, then blurred over one halftone cell
 * so that only the slow beats are left. `tone` 0 to 1 is the share of ink; `size` mm a side; `pxPerMm` of the picture.
 * Returned 0 (dark) to 255 (bare), contrast raised by `gain` about the mean, so that a faint beat can be seen at all.
 */
export function moirePicture(
  input: MoireInput & { readonly threadUm: number },
  size: Mm,
  pxPerMm: number,
  tone = 0.35,
  gain = 3,
): Plane {
  const side = Math.max(1, Math.round((size as number) * pxPerMm));
  const dots = new Float32Array(side * side);
  // Fine samples a picture point: both lattices are finer than the picture.
  const sub = 4;
  const turnM = (input.meshAngleDeg * Math.PI) / 180;
  const turnS = (input.screenAngleDeg * Math.PI) / 180;
  const meshPerMm = input.meshPerCm / 10;
  const linePerMm = input.lpi / 25.4;
  const threadShare = (input.threadUm / 1000) * meshPerMm;
  const [cm, sm, cs, ss] = [Math.cos(turnM), Math.sin(turnM), Math.cos(turnS), Math.sin(turnS)];
  // Edges are softened over one sample: hard ones would beat with the samples themselves.
  const sample = 1 / (pxPerMm * sub);
  const soften = (v: number) => Math.max(0, Math.min(1, v + 0.5));
  /** Share of a sample that is open at `at` threads along one direction. */
  const open = (at: number) => soften((Math.abs(at - Math.round(at)) - threadShare / 2) / meshPerMm / sample);
  const threshold = 2 * (1 - 2 * tone);
  const slope = 2 * Math.PI * linePerMm;
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      let ink = 0;
      for (let j = 0; j < sub; j++)
        for (let i = 0; i < sub; i++) {
          const px = (x + (i + 0.5) / sub) / pxPerMm;
          const py = (y + (j + 0.5) / sub) / pxPerMm;
          const mesh = open((px * cm + py * sm) * meshPerMm) * open((py * cm - px * sm) * meshPerMm);
          if (mesh === 0) continue;
          const u = slope * (px * cs + py * ss);
          const v = slope * (py * cs - px * ss);
          // Round to square spot by the cosines' sum, as halftones are usually made; its slope turns it into a distance.
          const over = Math.cos(u) + Math.cos(v) - threshold;
          const steep = slope * Math.hypot(Math.sin(u), Math.sin(v)) + 1e-6;
          ink += mesh * soften(over / steep / sample);
        }
      dots[y * side + x] = ink / (sub * sub);
    }
  const reach = Math.max(1, Math.round(pxPerMm / linePerMm / 2));
  const rows = boxBlur(dots, side, reach, 1, side);
  const soft = boxBlur(rows, side, reach, side, 1);
  let sum = 0;
  for (const v of soft) sum += v;
  const mean = sum / soft.length;
  const plane = blankPlane(side, side);
  for (let i = 0; i < soft.length; i++)
    plane.data[i] = Math.max(
      0,
      Math.min(255, Math.round(255 * (1 - (mean + ((soft[i] as number) - mean) * gain)))),
    );
  return plane;
}

/** Running means of 2·reach + 1 samples along one axis; `step` from sample to sample, `line` from line to line. */
function boxBlur(from: Float32Array, side: number, reach: number, step: number, line: number): Float32Array {
  const out = new Float32Array(from.length);
  for (let l = 0; l < side; l++)
    for (let i = 0; i < side; i++) {
      const low = Math.max(0, i - reach);
      const high = Math.min(side - 1, i + reach);
      let sum = 0;
      for (let k = low; k <= high; k++) sum += from[l * line + k * step] as number;
      out[l * line + i * step] = sum / (high - low + 1);
    }
  return out;
}
