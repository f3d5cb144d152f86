import { Clipper, ClipType, FillRule } from 'clipper2-ts';
import type { Pt, Ring } from './curve.ts';

export const INK = {
  white: '#f7f3e8',
  yellow: '#f2b632',
  coral: '#e8613c',
  green: '#2f8f83',
  key: '#1b2440',
} as const;
export type InkName = keyof typeof INK;

type Paths = { x: number; y: number }[][];
/** Rings that a clip returned as holes; every other ring is solid whichever way round it was drawn. */
const holes = new WeakSet<object>();
const area = (ring: readonly Pt[]): number =>
  ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] as Pt;
    return sum + p[0] * q[1] - q[0] * p[1];
  }, 0);
const solid = <R extends readonly Pt[]>(ring: R): readonly Pt[] =>
  holes.has(ring) || area(ring) >= 0 ? ring : [...ring].reverse();
const toPaths = (rings: readonly (readonly Pt[])[]): Paths =>
  rings.map((r) => solid(r).map(([x, y]) => ({ x, y })));
const toRings = (paths: Paths): Ring[] =>
  paths.map((r) => {
    const ring = r.map((p) => [p.x, p.y] as const);
    if (area(ring) < 0) holes.add(ring);
    return ring;
  });
const op = (kind: ClipType, a: readonly (readonly Pt[])[], b: readonly (readonly Pt[])[]): Ring[] => {
  if (a.length === 0) return kind === ClipType.Union ? [...(b as Ring[])] : [];
  return toRings(Clipper.booleanOpD(kind, toPaths(a), toPaths(b), FillRule.NonZero, 4) as Paths);
};
export const cut = (a: readonly (readonly Pt[])[], b: readonly (readonly Pt[])[]): Ring[] =>
  b.length ? op(ClipType.Difference, a, b) : op(ClipType.Union, a, []);
export const within = (a: readonly (readonly Pt[])[], b: readonly (readonly Pt[])[]): Ring[] =>
  op(ClipType.Intersection, a, b);
export const joined = (a: readonly (readonly Pt[])[]): Ring[] => op(ClipType.Union, a, []);

/** A drawing in flat inks. What is painted later covers what was painted before; `bare` takes all ink off again. */
export class Canvas {
  private groups: { name: string; layers: { ink: InkName; rings: Ring[] }[] }[] = [];
  readonly width: number;
  readonly height: number;
  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }
  group(name: string): void {
    this.groups.push({ name, layers: [] });
  }
  private offset: Pt = [0, 0];
  /** Moves everything painted from now on. */
  shift(x: number, y: number): void {
    this.offset = [this.offset[0] + x, this.offset[1] + y];
  }
  private moved(rings: readonly (readonly Pt[])[]): Ring[] {
    const [dx, dy] = this.offset;
    if (dx === 0 && dy === 0) return rings as Ring[];
    return rings.map((ring) => {
      const there = ring.map(([x, y]) => [x + dx, y + dy] as const);
      if (holes.has(ring)) holes.add(there);
      return there;
    });
  }
  paint(ink: InkName, ...drawn: (readonly Pt[])[]): void {
    const rings = this.moved(drawn);
    const group = this.groups[this.groups.length - 1];
    if (!group) throw new Error('A group comes before paint.');
    const last = group.layers[group.layers.length - 1];
    if (last?.ink === ink) last.rings.push(...rings);
    else group.layers.push({ ink, rings: [...rings] });
  }
  bare(...drawn: (readonly Pt[])[]): void {
    const rings = this.moved(drawn);
    for (const group of this.groups) for (const layer of group.layers) layer.rings = cut(layer.rings, rings);
  }
  toSvg(title: string): string {
    const sheet: Ring = [
      [0, 0],
      [this.width, 0],
      [this.width, this.height],
      [0, this.height],
    ];
    const lines = [
      `<svg xmlns="http://www.w3.org/2000/svg" width="${this.width}mm" height="${this.height}mm" viewBox="0 0 ${this.width} ${this.height}">`,
      `<title>${title}</title>`,
    ];
    for (const group of this.groups) {
      lines.push(`<g id="${group.name}">`);
      for (const layer of group.layers) {
        const rings = within(layer.rings, [sheet])
          .map(thin)
          .filter((r) => r.length > 2);
        if (rings.length) lines.push(`<path fill="${INK[layer.ink]}" d="${rings.map(pathOf).join('')}"/>`);
      }
      lines.push('</g>');
    }
    return `${lines.join('\n')}\n</svg>\n`;
  }
}

/** Drops points that lie within 0.015 mm of the line between their kept neighbours (Douglas–Peucker). */
function thin(ring: Ring): Ring {
  const n = ring.length;
  if (n < 5) return ring;
  const keep = new Uint8Array(n);
  const half = n >> 1;
  keep[0] = 1;
  keep[half] = 1;
  const spans: [number, number][] = [
    [0, half],
    [half, n],
  ];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [a, b] = span;
    const [p, q] = [ring[a] as Pt, ring[b % n] as Pt];
    const size = Math.hypot(q[0] - p[0], q[1] - p[1]) || 1e-9;
    let [worst, at] = [0.015, -1];
    for (let i = a + 1; i < b; i++) {
      const r = ring[i] as Pt;
      const off = Math.abs((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])) / size;
      if (off > worst) [worst, at] = [off, i];
    }
    if (at > 0) {
      keep[at] = 1;
      spans.push([a, at], [at, b]);
    }
  }
  return ring.filter((_, i) => keep[i]);
}

const short = (n: number): string => String(Math.round(n * 100) / 100).replace(/^(-?)0\./, '$1.');
function pathOf(ring: Ring): string {
  let text = '';
  let [px, py] = [0, 0];
  ring.forEach(([x, y], i) => {
    const [qx, qy] = [Math.round(x * 100) / 100, Math.round(y * 100) / 100];
    if (i === 0) text += `M${short(qx)} ${short(qy)}`;
    else {
      const [dx, dy] = [short(qx - px), short(qy - py)];
      text += `${i === 1 ? 'l' : dx.startsWith('-') ? '' : ' '}${dx}${dy.startsWith('-') ? '' : ' '}${dy}`;
    }
    [px, py] = [qx, qy];
  });
  return `${text}z`;
}
