import { COARSE_ART_DPI } from '../../../core/coarseArt.ts';
import {
  blankMask,
  components,
  inkCount,
  type Mask,
  setBit,
  shrink,
  subtract,
} from '../../../core/raster/index.ts';
import { MM_PER_INCH } from '../../../core/units/index.ts';
import { PALETTES, random } from './flatArt.ts';
import { filmsOf, type Measured, measure, render, throughJpeg, truthOf } from './measure.ts';

/** Resolutions that art arrives in, points an inch, and that of the films. */
export const ART_DPI = [72, 96, 150, 200, 300, 400, 600] as const;
export const FILM_DPI = 600;

/** In inches: a whole number of points at every resolution. */
const WIDTH = 1.5;
const HEIGHT = 1;
/** mm: the finest line that must not break. */
const LINE = 0.3;

/**
 * How many pure colours a soft point has about it. 1: a line too thin to be pure, on one colour; 2: an edge between two colours;
 * 3: three colours that meet in a point.
 */
export const NEIGHBOURS = [1, 2, 3] as const;
export type Neighbours = (typeof NEIGHBOURS)[number];

/** Transparent, or a colour that is no ink. */
export const GROUNDS = [null, '#d9c7a3'] as const;

const n = (v: number) => v.toFixed(3);

/** A drawing, in mm, with the body for its soft points; seeded. */
function bodyOf(kind: Neighbours, seed: number, inks: readonly string[]): string {
  const rnd = random(100 * kind + seed);
  const h = HEIGHT * MM_PER_INCH;
  const ink = (i: number) => inks[i % inks.length]!;
  const parts: string[] = [];
  if (kind === 1)
    for (let i = 0; i < 7; i++) {
      // Side by side, so that each is a piece of its own.
      const x = 3 + i * 5;
      const sway = () => (rnd() - 0.5) * 3;
      parts.push(
        `<path d="M${n(x + sway())} 3Q${n(x + sway())} ${n(h / 2)} ${n(x + sway())} ${n(h - 3)}" fill="none" stroke="${ink(i + seed)}" stroke-width="${LINE}"/>`,
      );
    }
  if (kind === 2)
    for (let i = 0; i < 6; i++) {
      const [x, y] = [5 + (i % 3) * 13 + rnd() * 3, 6 + Math.floor(i / 3) * 12 + rnd() * 2];
      const r = 3 + 2.2 * rnd();
      // A leaf in a disc: round edges and two sharp tips, against the ground and against another ink.
      parts.push(
        `<circle cx="${n(x)}" cy="${n(y)}" r="${n(r)}" fill="${ink(i)}"/>`,
        `<path transform="rotate(${n(180 * rnd())} ${n(x)} ${n(y)})" d="M${n(x - 0.8 * r)} ${n(y)}Q${n(x)} ${n(y - r)} ${n(x + 0.8 * r)} ${n(y)}Q${n(x)} ${n(y + r)} ${n(x - 0.8 * r)} ${n(y)}Z" fill="${ink(i + 1 + seed)}"/>`,
      );
    }
  if (kind === 3)
    for (let i = 0; i < 6; i++) {
      const [x, y, r] = [6 + (i % 3) * 12.5, 6.4 + Math.floor(i / 3) * 12.5, 5.2];
      const turn = 2 * Math.PI * rnd();
      const at = (t: number) => `${n(x + r * Math.cos(turn + t))} ${n(y + r * Math.sin(turn + t))}`;
      for (let slice = 0; slice < 3; slice++)
        parts.push(
          `<path d="M${n(x)} ${n(y)}L${at((2 * Math.PI * slice) / 3)}A${r} ${r} 0 0 1 ${at((2 * Math.PI * (slice + 1)) / 3 + 0.06)}Z" fill="${ink(i + slice)}"/>`,
        );
    }
  return parts.join('');
}

export interface Swept {
  readonly dpi: number;
  readonly neighbours: Neighbours;
  readonly ground: string | null;
  readonly films: Measured;
  /** Edges off, mm on the film. */
  readonly offMm: number;
  /** Points in the middle of lines and areas that their film lacks; and how many pieces the films have too many or too few. */
  readonly lost: number;
  readonly broken: number;
}

/** Points of the truth's middles (deeper than two points) that the films lack, and how much the count of pieces is off. */
function kept(films: readonly Mask[], truth: Uint8Array, width: number, height: number) {
  let lost = 0;
  let broken = 0;
  films.forEach((film, k) => {
    const real = blankMask(width, height);
    for (let i = 0; i < truth.length; i++)
      if (truth[i] === k + 1) setBit(real, i % width, Math.floor(i / width));
    lost += inkCount(subtract(shrink(real, 2), film));
    broken += Math.abs(components(film).length - components(real).length);
  });
  return { lost, broken };
}

/** One cell of the sweep: drawings of `seeds`, soft at `dpi` (and through JPEG of that quality), separated to the film's resolution, against themselves drawn hard there. */
export async function measureSwept(
  dpi: number,
  neighbours: Neighbours,
  ground: string | null,
  seeds: readonly number[],
  quality?: number,
): Promise<Swept> {
  const sums = { falseInk: 0, falseShare: 0, displacement: 0, wrongShare: 0, lost: 0, broken: 0 };
  for (const seed of seeds) {
    const inks = PALETTES[(seed + neighbours) % PALETTES.length]!.filter((hex) => hex !== ground).slice(0, 4);
    const body = bodyOf(neighbours, seed, inks);
    const svg = (px: number, hard: boolean) =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="${px * WIDTH}" height="${px * HEIGHT}" viewBox="0 0 ${WIDTH * MM_PER_INCH} ${HEIGHT * MM_PER_INCH}"${hard ? ' shape-rendering="crispEdges"' : ''}>${ground ? `<rect width="100%" height="100%" fill="${ground}"/>` : ''}${body}</svg>`;
    const drawn = await render(svg(dpi, false));
    const soft = quality === undefined ? drawn : await throughJpeg(drawn, quality, ground ?? '#ffffff');
    const hard = await render(svg(FILM_DPI, true));
    const [width, height] = [hard.width as number, hard.height as number];
    const truth = truthOf(hard, inks);
    const films = filmsOf(soft, inks, ground, FILM_DPI / dpi, { coarse: dpi < COARSE_ART_DPI });
    const found = measure(films, truth, width, height);
    const { lost, broken } = kept(films, truth, width, height);
    sums.falseInk += found.falseInk;
    sums.falseShare += found.falseShare / seeds.length;
    sums.displacement += found.displacement / seeds.length;
    sums.wrongShare += found.wrongShare / seeds.length;
    sums.lost += lost;
    sums.broken += broken;
  }
  const { lost, broken, ...films } = sums;
  return {
    dpi,
    neighbours,
    ground,
    films,
    offMm: (films.displacement * MM_PER_INCH) / FILM_DPI,
    lost,
    broken,
  };
}

/** The sweep as a table in Markdown. */
export function sweepTable(rows: readonly Swept[]): string {
  return [
    '| art, dpi | pure neighbours | ground | false ink, points | of area, % | edges off, mm | in film points | middles lost | lines broken |',
    '|---:|---:|---|---:|---:|---:|---:|---:|---:|',
    ...rows.map(
      ({ dpi, neighbours, ground, films, offMm, lost, broken }) =>
        `| ${dpi} | ${neighbours} | ${ground === null ? 'transparent' : 'coloured'} | ${films.falseInk} | ${(100 * films.falseShare).toFixed(4)} | ${offMm.toFixed(4)} | ${films.displacement.toFixed(3)} | ${lost} | ${neighbours === 1 ? broken : '–'} |`,
    ),
  ].join('\n');
}
