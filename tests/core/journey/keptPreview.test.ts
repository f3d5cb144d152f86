import { describe, expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { type FacePreview, facePreview } from '../../../core/facePreview.ts';
import { InkMemory } from '../../../core/inkMemory.ts';
import { type Art, type Ink, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { equal, halved, inkCount, type Mask, type Picture } from '../../../core/raster/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');

/** Discs of three colours on clear ground, soft at their edges. */
function discs(width: number, height: number): Picture {
  const data = new Uint8Array(width * height * 4);
  const colours = [
    [232, 97, 60],
    [27, 36, 64],
    [240, 236, 220],
  ] as const;
  for (let i = 0; i < 24; i++) {
    const [cx, cy, r] = [(i * 53) % width, (i * 31) % height, 12 + ((i * 7) % 20)];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const edge = Math.min(1, r + 0.5 - Math.hypot(x - cx, y - cy));
        if (edge <= 0) continue;
        const at = 4 * (y * width + x);
        const under = data[at + 3]! / 255;
        const over = edge + under * (1 - edge);
        for (let c = 0; c < 3; c++)
          data[at + c] = Math.round((colours[i % 3]![c]! * edge + data[at + c]! * under * (1 - edge)) / over);
        data[at + 3] = Math.round(255 * over);
      }
  }
  return { width, height, data };
}

const piece = (id: string, over: Partial<Art>): Art => ({
  id,
  name: `${id}.svg`,
  hash: 'd'.repeat(64),
  mediaType: 'image/svg+xml',
  widthPx: 400,
  heightPx: 120,
  width: 400,
  height: 120,
  x: 0,
  y: 0,
  rotationDeg: 0,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
  ...over,
});

const picture = discs(400, 120);
const pictures = new Map([['d'.repeat(64), picture]]);

function start(method: 'spot' | 'halftone' | 'index' = 'spot'): Job {
  const job = newJob({ name: 'Kept', deck: deck as NonNullable<typeof deck> });
  const inks: Ink[] = [];
  for (const [name, hex] of [
    ['Base', '#f0ecdc'],
    ['Coral', '#e8613c'],
    ['Night', '#1b2440'],
  ] as const)
    inks.push(inkFrom({ name, hex }, inks));
  inks[0] = { ...inks[0]!, role: 'base' as const };
  const art = [
    piece('a', {}),
    piece('b', { x: 60, y: 8, width: 200, height: 60, rotationDeg: 14, wrap: 'plan' }),
  ];
  return { ...job, faces: { ...job.faces, bottom: { ...job.faces.bottom, method, art, inks } } };
}

type Face = Job['faces']['bottom'];
const change = (job: Job, how: (face: Face) => Face): Job => ({
  ...job,
  faces: { ...job.faces, bottom: how(job.faces.bottom) },
});

function look(job: Job, memory?: InkMemory, loose = false): FacePreview {
  const made = facePreview({ job, face: 'bottom', pictures, dpi: 80, traps: true, memory, loose });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

/** Points in which two sets of masks differ, as a share of all ink. */
function apart(a: readonly Mask[], b: readonly Mask[]): number {
  let [differ, all] = [0, 0];
  for (const [i, mask] of a.entries()) {
    all += inkCount(mask);
    for (let w = 0; w < mask.data.length; w++) {
      let v = (mask.data[w]! ^ b[i]!.data[w]!) >>> 0;
      for (; v !== 0; v = (v & (v - 1)) >>> 0) differ++;
    }
  }
  return differ / all;
}

const steps: readonly (readonly [string, (face: Face) => Face])[] = [
  ['nothing', (face) => face],
  ['a piece moved', (face) => ({ ...face, art: [face.art[0]!, { ...face.art[1]!, x: 41.3, y: -6 }] })],
  ['the pieces in another order', (face) => ({ ...face, art: [...face.art].reverse() })],
  ['wider traps', (face) => ({ ...face, traps: { ...face.traps, width: 0.9 } })],
  ['an ink pulled earlier', (face) => ({ ...face, inks: [face.inks[0]!, face.inks[2]!, face.inks[1]!] })],
  [
    'an ink darker, its art as before',
    (face) => ({
      ...face,
      inks: face.inks.map((ink, i) => (i === 1 ? { ...ink, matches: ink.hex, hex: '#700010' } : ink)),
    }),
  ],
  ['a deeper choke', (face) => ({ ...face, traps: { ...face.traps, choke: 0.8 } })],
  ['a wider margin', (face) => ({ ...face, railMargin: face.railMargin + 6 })],
  [
    'a colour given to another ink',
    (face) => ({ ...face, handColours: [{ hex: '#1b2440', ink: face.inks[1]!.id }] }),
  ],
  [
    'a piece cropped',
    (face) => ({
      ...face,
      art: [{ ...face.art[0]!, crop: { left: 0.3, top: 0, right: 0.1, bottom: 0.2 } }, face.art[1]!],
    }),
  ],
  ['a piece hidden', (face) => ({ ...face, art: [{ ...face.art[0]!, hidden: true }, face.art[1]!] })],
  ['an ink left out', (face) => ({ ...face, inks: face.inks.slice(0, 2) })],
];

describe('a face made again from what is kept', () => {
  test.each(['spot', 'halftone', 'index'] as const)(
    '%s: after any change it is as made from nothing',
    (method) => {
      const memory = new InkMemory();
      let job = start(method);
      look(job, memory);
      for (const [name, how] of steps) {
        job = change(job, how);
        const kept = look(job, memory);
        const anew = look(job, new InkMemory());
        for (const part of ['separations', 'prints'] as const)
          for (const [i, mask] of kept[part].entries())
            expect(equal(mask, anew[part][i]!), `${name}: ${part} ${i}`).toBe(true);
        // Without a memory art is separated in windows: places round a little differently.
        const windows = look(job);
        expect(apart(kept.separations, windows.separations), name).toBeLessThan(0.002);
        expect(apart(kept.prints, windows.prints), name).toBeLessThan(0.002);
      }
    },
  );

  test('only what depends on a change is made again', () => {
    const memory = new InkMemory();
    const job = start();
    const first = look(job, memory);
    const same = look(job, memory);
    expect(same.separations).toBe(first.separations);
    expect(same.deck).toBe(first.deck);
    for (const [i, print] of same.prints.entries()) expect(print).toBe(first.prints[i]);
    const choked = look(
      change(job, (face) => ({ ...face, traps: { ...face.traps, choke: 0.9 } })),
      memory,
    );
    expect(choked.separations).toBe(first.separations);
    expect(choked.prints[1]).toBe(first.prints[1]);
    expect(choked.prints[0]).not.toBe(first.prints[0]);
  });

  test('loosely, an ink in another colour keeps the shapes; exactly, it looks at the art again', () => {
    const memory = new InkMemory();
    const job = start();
    const first = look(job, memory);
    const paler = change(job, (face) => ({
      ...face,
      inks: face.inks.map((ink, i) => (i === 1 ? { ...ink, hex: '#20e0e0' } : ink)),
    }));
    expect(look(paler, memory, true).separations).toBe(first.separations);
    const exact = look(paler, memory);
    expect(equal(exact.separations[1]!, first.separations[1]!)).toBe(false);
    expect(equal(exact.separations[1]!, look(paler, new InkMemory()).separations[1]!)).toBe(true);
  });

  test('loosely, inks that change places keep their shapes, and only the pair between them is trapped again', () => {
    const memory = new InkMemory();
    const job = start();
    const first = look(job, memory, true);
    const swapped = change(job, (face) => ({
      ...face,
      inks: [face.inks[0]!, face.inks[2]!, face.inks[1]!],
    }));
    const quick = look(swapped, memory, true);
    expect(quick.separations).toEqual([first.separations[0], first.separations[2], first.separations[1]]);
    expect(quick.separations[2]).toBe(first.separations[1]);
    const anew = look(swapped, new InkMemory());
    expect(apart(quick.separations, anew.separations)).toBeLessThan(0.001);
    expect(apart(quick.prints, anew.prints)).toBeLessThan(0.001);
    const inksOf = (made: FacePreview) => made.dropped?.map(({ ink }) => ink).sort();
    expect(inksOf(quick)).toEqual(inksOf(anew));
    expect(inksOf(quick)).toBeDefined();
    // Back again nothing is made; exactly, all is as from nothing.
    expect(look(job, memory, true).separations).toBe(first.separations);
    const exact = look(swapped, memory);
    for (const [i, mask] of exact.separations.entries()) expect(equal(mask, anew.separations[i]!)).toBe(true);
  });

  test('art replaced under the same name is seen', () => {
    const memory = new InkMemory();
    const job = start();
    const first = look(job, memory);
    const coarse = new Map([['d'.repeat(64), halved(picture)]]);
    const made = facePreview({ job, face: 'bottom', pictures: coarse, dpi: 80, traps: true, memory });
    expect(made.ok && equal(made.value.separations[1]!, first.separations[1]!)).toBe(false);
  });
});

describe('a picture of half the size', () => {
  test('is the mean of two by two, clear points without a say in the colour', () => {
    const data = Uint8Array.of(
      200,
      0,
      0,
      255,
      9,
      9,
      9,
      0,
      100,
      0,
      0,
      255,
      7,
      7,
      7,
      0,
      40,
      50,
      60,
      255,
      40,
      50,
      60,
      255,
    );
    expect(halved({ width: 2, height: 3, data })).toEqual({
      width: 1,
      height: 2,
      data: Uint8Array.of(150, 0, 0, 128, 40, 50, 60, 255),
    });
  });
});
