/** Flat-colour drawings made by script, so that the same art can be rendered soft and hard: seeded, always the same. */

export interface FlatArt {
  readonly name: string;
  /** Size in mm; the viewBox is in mm. */
  readonly width: number;
  readonly height: number;
  readonly inks: readonly string[];
  /** Paper colour, or null for a transparent ground. */
  readonly ground: string | null;
  /** Body of the SVG; `EDGES` stands where the shape-rendering goes. */
  readonly body: string;
}

/** Mulberry32: a small seeded generator (public domain), so that drawings repeat. */
export function random(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Palettes: the demonstration's five inks, near neighbours, mixes of one another, greys. */
export const PALETTES: readonly (readonly string[])[] = [
  ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440'],
  ['#ffd400', '#e30613', '#009fe3', '#000000', '#ffffff'],
  // The middle ones lie on the lines between others: an edge of those looks like them.
  ['#ffff00', '#000000', '#808000', '#ffffff', '#808080'],
  ['#f4c6c0', '#e59a8f', '#c86a5e', '#7a3b34', '#2a1412'],
  ['#2e5bff', '#7aa0ff', '#0b1f66', '#f0f4ff', '#ff7a00'],
];

const f = (v: number) => v.toFixed(3);

function blob(rnd: () => number, x: number, y: number, r: number): string {
  const n = 5 + Math.floor(rnd() * 5);
  const points = Array.from({ length: n }, (_, i) => {
    const t = (i / n) * 2 * Math.PI;
    const d = r * (0.6 + 0.4 * rnd());
    return [x + d * Math.cos(t), y + d * Math.sin(t)] as const;
  });
  let path = '';
  for (let i = 0; i < n; i++) {
    const a = points[i]!;
    const b = points[(i + 1) % n]!;
    const mid = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
    path += i === 0 ? `M${f(mid[0])} ${f(mid[1])}` : '';
    const c = points[(i + 2) % n]!;
    path += `Q${f(b[0])} ${f(b[1])} ${f((b[0] + c[0]) / 2)} ${f((b[1] + c[1]) / 2)}`;
  }
  return `${path}Z`;
}

/** Overlapping curved shapes, pie slices that meet in one point, thin lines, letter-like strokes. */
export function drawFlatArt(seed: number): FlatArt {
  const rnd = random(seed);
  const inks = PALETTES[seed % PALETTES.length]!;
  const ground = seed % 2 === 0 ? null : seed % 4 === 1 ? '#ffffff' : '#d9c7a3';
  const used = inks.filter((ink) => ink !== ground);
  const pick = () => used[Math.floor(rnd() * used.length)]!;
  const width = 40.64; // 480 points at 300 dpi
  const height = 30.48;
  const parts: string[] = [];
  if (ground) parts.push(`<rect width="${width}" height="${height}" fill="${ground}"/>`);
  for (let i = 0; i < 6; i++)
    parts.push(`<path d="${blob(rnd, rnd() * width, rnd() * height, 3 + rnd() * 8)}" fill="${pick()}"/>`);
  // Three and more colours meet in one point.
  const [cx, cy] = [8 + rnd() * 24, 8 + rnd() * 14];
  const slices = 3 + (seed % 3);
  for (let i = 0; i < slices; i++) {
    const a = (i / slices) * 2 * Math.PI + rnd() * 0.3;
    const b = ((i + 1) / slices) * 2 * Math.PI + 0.35;
    const at = (t: number) => `${f(cx + 6 * Math.cos(t))} ${f(cy + 6 * Math.sin(t))}`;
    parts.push(
      `<path d="M${f(cx)} ${f(cy)}L${at(a)}A6 6 0 ${b - a > Math.PI ? 1 : 0} 1 ${at(b)}Z" fill="${used[i % used.length]}"/>`,
    );
  }
  // A star and a ring with sharp corners and holes.
  const star = Array.from({ length: 10 }, (_, i) => {
    const t = (i / 10) * 2 * Math.PI + rnd() * 0.05;
    const d = i % 2 ? 1.6 : 4;
    return `${f(32 + d * Math.cos(t))},${f(8 + d * Math.sin(t))}`;
  });
  parts.push(`<polygon points="${star.join(' ')}" fill="${pick()}"/>`);
  parts.push(
    `<circle cx="${f(6 + rnd() * 4)}" cy="${f(22 + rnd() * 2)}" r="3.1" fill="none" stroke="${pick()}" stroke-width="1.1"/>`,
  );
  // Thin lines: 0.3 mm is the finest a mesh holds.
  for (let i = 0; i < 5; i++) {
    const w = [0.3, 0.3, 0.4, 0.6, 1][i]!;
    parts.push(
      `<path d="M${f(rnd() * width)} ${f(rnd() * height)}Q${f(rnd() * width)} ${f(rnd() * height)} ${f(rnd() * width)} ${f(rnd() * height)}" fill="none" stroke="${pick()}" stroke-width="${w}"/>`,
    );
  }
  // Strokes as of lettering.
  for (let i = 0; i < 4; i++) {
    const x = 14 + i * 4;
    parts.push(
      `<path d="M${x} 28V23L${x + 1.4} 26L${x + 2.8} 23V28" fill="none" stroke="${used[used.length - 1 - (seed % 2)]}" stroke-width="0.7" stroke-linejoin="miter"/>`,
    );
  }
  return { name: `drawing ${seed}`, width, height, inks: used, ground, body: parts.join('') };
}

/** The whole SVG: edges soft as drawing programs render them, or hard, each point one colour. */
export const svgOf = (art: FlatArt, hard: boolean, px: number): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${px}" height="${Math.round((px * art.height) / art.width)}" viewBox="0 0 ${art.width} ${art.height}"${hard ? ' shape-rendering="crispEdges"' : ''}>${art.body}</svg>`;
