import { done, type Mm, type Outcome } from '../units/index.ts';
import type { Calculation } from './calculation.ts';
import { type Mesh, type MeshFigures, meshFigures } from './mesh.ts';
import { MESH_TABLE } from './meshTable.ts';

/** Ink kinds as the job names them. */
export type InkKind = 'opaque' | 'transparent' | 'pearlescent' | 'glow' | 'metallic' | 'clear';

/** mm the mesh must be open for the ink's particles to pass; common practice, no source: ask the ink's maker. */
export const OPENING_FOR: Readonly<Record<InkKind, Mm>> = {
  opaque: 0,
  transparent: 0,
  clear: 0,
  metallic: 0.06,
  pearlescent: 0.09,
  glow: 0.14,
};

/** Threads a halftone line needs: 4 to 5 is the usual safe range (SEFAR; an article in Screen Printing magazine gives 3.5 and 4). */
export const THREADS_PER_LINE = 4;

export interface MeshAdviceInput {
  /** mm, as measured on the film; null: nothing fine was found. */
  readonly line: Mm | null;
  readonly gap: Mm | null;
  readonly kind: InkKind;
  /** Halftone ruling, lines per inch; absent for line work. */
  readonly lpi?: number;
  /** The mesh on the frame. */
  readonly chosen: Mesh;
  /** The meshes to choose from: the user's own stock, else the table. */
  readonly stock?: readonly Mesh[];
}

export interface JudgedMesh extends Mesh {
  readonly figures: MeshFigures;
  readonly holdsLine: boolean;
  readonly holdsGap: boolean;
  readonly passesInk: boolean;
  readonly holdsRuling: boolean;
  readonly good: boolean;
}

export interface MeshAdvice {
  readonly chosen: JudgedMesh;
  /** Meshes that hold everything, the thickest deposit first. */
  readonly good: readonly JudgedMesh[];
  readonly all: readonly JudgedMesh[];
  /** What the chosen mesh can not do, one sentence each. */
  readonly warnings: readonly string[];
}

/** Which meshes hold a film's finest line and gap, its halftone, and let its ink through. */
export function adviseMesh(input: MeshAdviceInput): Outcome<Calculation<MeshAdvice>> {
  const { line, gap, kind, lpi } = input;
  const judge = (mesh: Mesh): Outcome<JudgedMesh> => {
    const worked = meshFigures(mesh);
    if (!worked.ok) return worked;
    const figures = worked.value.result;
    const holdsLine = line === null || line >= figures.finestLine;
    const holdsGap = gap === null || gap >= figures.finestLine;
    const passesInk = figures.opening >= OPENING_FOR[kind];
    const holdsRuling = lpi === undefined || mesh.countPerCm * 2.54 >= THREADS_PER_LINE * lpi;
    const good = holdsLine && holdsGap && passesInk && holdsRuling;
    return done({ ...mesh, figures, holdsLine, holdsGap, passesInk, holdsRuling, good });
  };
  const chosen = judge(input.chosen);
  if (!chosen.ok) return chosen;
  const all: JudgedMesh[] = [];
  for (const mesh of input.stock ?? MESH_TABLE) {
    const judged = judge(mesh);
    if (!judged.ok) return judged;
    all.push(judged.value);
  }
  const good = all
    .filter((mesh) => mesh.good)
    .sort((a, b) => b.figures.inkVolume - a.figures.inkVolume || a.countPerCm - b.countPerCm);
  const { figures, ...held } = chosen.value;
  const finest = figures.finestLine.toFixed(2);
  const warnings: string[] = [];
  const name = `${input.chosen.countPerCm}-${input.chosen.threadUm}`;
  if (!held.holdsLine && !held.holdsGap)
    warnings.push(
      `Lines go down to ${line?.toFixed(2)} mm and gaps to ${gap?.toFixed(2)} mm, but mesh ${name} holds ${finest} mm.`,
    );
  else if (!held.holdsLine)
    warnings.push(`The finest line is ${line?.toFixed(2)} mm, but mesh ${name} holds ${finest} mm.`);
  else if (!held.holdsGap)
    warnings.push(`The finest gap is ${gap?.toFixed(2)} mm, but mesh ${name} keeps ${finest} mm open.`);
  if (!held.passesInk)
    warnings.push(
      `A ${kind} ink wants openings of ${(OPENING_FOR[kind] * 1000).toFixed(0)} µm; mesh ${name} has ${(figures.opening * 1000).toFixed(0)} µm.`,
    );
  if (!held.holdsRuling)
    warnings.push(
      `A ruling of ${lpi} lpi wants ${Math.ceil((THREADS_PER_LINE * (lpi ?? 0)) / 2.54)} threads/cm or more; mesh ${name} has fewer.`,
    );
  return done({
    result: { chosen: chosen.value, good, all, warnings },
    formula: 'a mesh holds what is no narrower than pitch + thread diameter; threads/in ≥ 4 × lpi',
    assumptions: [
      'Lines and gaps as measured on the film by local thickness; specks are judged by the job’s smallest area.',
      'The thickest deposit that holds the detail comes first: opaque ink on wood wants ink (common practice, no source).',
      `Openings for particles: metallic ${OPENING_FOR.metallic * 1000}, pearlescent ${OPENING_FOR.pearlescent * 1000}, glow ${OPENING_FOR.glow * 1000} µm (common practice, no source): the ink maker’s sheet comes first.`,
      '4 to 5 threads a halftone line is the usual safe range (SEFAR, “Questions about half-tone printing”; the magazine Screen Printing: 3.5 and 4).',
    ],
  });
}
