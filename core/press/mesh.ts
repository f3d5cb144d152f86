import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';

/** A mesh as its maker names it, and what else its sheet states. */
export interface Mesh {
  readonly countPerCm: number;
  readonly threadUm: number;
  /** µm between threads, from the maker's sheet; woven openings are often smaller than the formula's. */
  readonly openingUm?: number;
  /** µm, thickness of the woven fabric, from the maker's sheet. */
  readonly thicknessUm?: number;
  /** cm³/m², from the maker's sheet. */
  readonly inkVolume?: number;
}

export interface MeshFigures {
  /** mm from thread to thread. */
  readonly pitch: Mm;
  /** mm between threads. */
  readonly opening: Mm;
  /** 0 to 1. */
  readonly openArea: number;
  /** µm. */
  readonly thicknessUm: number;
  /** cm³ of ink a m² of open mesh holds; also µm of wet ink if all of it is left on the wood. */
  readonly inkVolume: number;
  /** µm of wet ink a stroke leaves, by the published rule. */
  readonly wetDepositUm: number;
  /** mm, the narrowest line or gap the mesh can carry: one opening and two threads. */
  readonly finestLine: Mm;
}

/** Fabric thickness over thread diameter in plain weave: 1.475 to 1.575 in four published rows; own choice between. */
export const THICKNESS_OVER_THREAD = 1.55;

/**
 * Geometry of a plain weave mesh. Opening, open area and theoretical ink volume by the wire cloth and screen makers'
 * definitions; the maker's own figures replace the formula's where given.
 */
export function meshFigures(mesh: Mesh): Outcome<Calculation<MeshFigures>> {
  const { countPerCm, threadUm } = mesh;
  const bad = outOfBounds({
    'mesh count': [countPerCm, { least: 5, most: 250, unit: 'threads/cm' }],
    'thread diameter': [threadUm, { least: 5, most: 10_000 / Math.max(countPerCm, 5), unit: 'µm' }],
    'mesh opening': [mesh.openingUm ?? 1, { least: 1, most: 10_000 / Math.max(countPerCm, 5), unit: 'µm' }],
    'fabric thickness': [mesh.thicknessUm ?? 1, { least: 1, most: 4000, unit: 'µm' }],
    'ink volume': [mesh.inkVolume ?? 1, { least: 0.1, most: 2000, unit: 'cm³/m²' }],
  });
  if (bad) return bad;
  const pitchUm = 10_000 / countPerCm;
  const openingUm = mesh.openingUm ?? pitchUm - threadUm;
  const openArea = (openingUm / pitchUm) ** 2;
  const thicknessUm = mesh.thicknessUm ?? THICKNESS_OVER_THREAD * threadUm;
  const share = threadUm / pitchUm;
  const wetDepositUm =
    countPerCm < 43
      ? 1.82 * threadUm * (1 - share) ** 2
      : countPerCm < 140
        ? 0.285 * thicknessUm
        : 0.35 * thicknessUm;
  return done({
    result: {
      pitch: pitchUm / 1000,
      opening: openingUm / 1000,
      openArea,
      thicknessUm,
      inkVolume: mesh.inkVolume ?? openArea * thicknessUm,
      wetDepositUm,
      finestLine: (pitchUm + threadUm) / 1000,
    },
    formula:
      'opening = 10 000/n − d; open area = (opening·n/10 000)²; ink volume = open area × fabric thickness; finest line = pitch + d',
    assumptions: [
      mesh.openingUm === undefined
        ? 'Opening from count and thread before weaving; woven openings are some µm smaller, so enter the maker’s.'
        : 'Opening as the maker states it.',
      mesh.thicknessUm === undefined
        ? `Fabric thickness ${THICKNESS_OVER_THREAD} thread diameters, estimated from four published plain weave rows (1.475 to 1.575).`
        : 'Fabric thickness as the maker states it.',
      'Ink volume by the makers’ definition: open area × fabric thickness (Spörl, “Theoretical ink volume”).',
      'Wet deposit by the rule in “How much ink do you need?”, Screen Printing magazine, April 2000, plain weave.',
      'Finest line: a line must bridge an opening and rest on a thread at each side (common practice, no source).',
    ],
  });
}
