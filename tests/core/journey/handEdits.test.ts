import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { type FacePreview, facePreview } from '../../../core/facePreview.ts';
import {
  type Art,
  assignColour,
  type FaceJob,
  type HandRegion,
  inkFrom,
  type Job,
  JobSchema,
  mergeInks,
  newJob,
  withoutInk,
} from '../../../core/job/index.ts';
import type { ImageCodec } from '../../../core/ports/index.ts';
import { equal, getBit, inkCount, isBlank, type Mask, type Picture } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { done } from '../../../core/units/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');
const CORAL = '#e8613c';
const BLUE = '#1b2440';
const GOLD = '#f2b632';

/** 400 × 200 points: left half coral, right half blue; the lowest quarter is transparent. */
const art: Picture = (() => {
  const data = new Uint8Array(400 * 200 * 4);
  for (let y = 0; y < 150; y++)
    for (let x = 0; x < 400; x++)
      data.set(x < 200 ? [232, 97, 60, 255] : [27, 36, 64, 255], (y * 400 + x) * 4);
  return { width: 400, height: 200, data };
})();
/** Half a mm a point. */
const piece = (over: Partial<Art> = {}): Art => ({
  id: 'halves',
  name: 'halves.png',
  hash: 'a'.repeat(64),
  mediaType: 'image/png',
  widthPx: 400,
  heightPx: 200,
  width: 200,
  height: 100,
  x: 0,
  y: 0,
  rotationDeg: 0,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
  ...over,
});
function jobWith(pieces: readonly Art[], over: Partial<FaceJob> = {}): Job {
  const job = newJob({ name: 'Try', deck: deck as NonNullable<typeof deck> });
  const coral = inkFrom({ name: 'Coral', hex: CORAL }, []);
  const blue = inkFrom({ name: 'Blue', hex: BLUE }, [coral]);
  const gold = inkFrom({ name: 'Gold', hex: GOLD }, [coral, blue]);
  const bottom = { ...job.faces.bottom, art: [...pieces], inks: [coral, blue, gold], ...over };
  return JobSchema.parse({ ...job, faces: { ...job.faces, bottom } });
}
const DPI = 127; // 5 points a mm
function preview(job: Job, picture: Picture = art): FacePreview {
  const pictures = new Map(job.faces.bottom.art.map((a) => [a.hash, picture]));
  const made = facePreview({ job, face: 'bottom', pictures, dpi: DPI, traps: false });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}
/** The ink at a place of the surface, mm; null: bare. */
function inkAt(made: FacePreview, s: number, t: number): number | null {
  const x = Math.floor((s - made.box.x) * 5);
  const y = Math.floor((made.box.y + made.box.height - t) * 5);
  const at = made.separations.findIndex((mask) => getBit(mask, x, y));
  return at < 0 ? null : at;
}
/** A square in the coral half, a fifth of it into the blue: art points 120 to 220 across, 40 to 90 down. */
const square = (over: Partial<HandRegion> = {}): HandRegion => ({
  id: 'r1',
  to: 'gold',
  only: null,
  bareStays: false,
  shape: {
    kind: 'lasso',
    ring: [
      [120, 40],
      [220, 40],
      [220, 90],
      [120, 90],
    ],
  },
  ...over,
});
const GOLD_AT = 2;

test('a lassoed region goes to its ink, to the point, and nothing else changes', () => {
  const made = preview(jobWith([piece({ regions: [square()] })]));
  // 100 × 50 art points are 50 × 25 mm: 250 × 125 points of the raster.
  const [, , gold] = made.separations as [Mask, Mask, Mask];
  expect(Math.abs(inkCount(gold) - 250 * 125)).toBeLessThan(2 * (250 + 125) * 0.35);
  expect(inkAt(made, -39, 29)).toBe(GOLD_AT);
  expect(inkAt(made, 9, 6)).toBe(GOLD_AT);
  expect(inkAt(made, -41, 29)).toBe(0);
  expect(inkAt(made, 11, 6)).toBe(1);
  expect(inkAt(made, -39, 31)).toBe(0);
});

test('a region follows its art: moved, scaled, turned, mirrored and drawn at another size', () => {
  const moved = preview(jobWith([piece({ regions: [square()], x: 60, y: -5 })]));
  expect(inkAt(moved, 21, 23)).toBe(GOLD_AT);
  expect(inkAt(moved, 19, 23)).toBe(0);
  const small = preview(jobWith([piece({ regions: [square()], width: 100, height: 50 })]));
  expect(inkAt(small, -19.5, 14.5)).toBe(GOLD_AT);
  expect(inkAt(small, -20.5, 14.5)).toBe(0);
  // A quarter turn anticlockwise: what was at (s, t) is at (−t, s).
  const turned = preview(jobWith([piece({ regions: [square()], rotationDeg: 90 })]));
  expect(inkAt(turned, -29, -39)).toBe(GOLD_AT);
  expect(inkAt(turned, -29, -41)).toBe(0);
  const mirrored = preview(jobWith([piece({ regions: [square()], mirror: true })]));
  expect(inkAt(mirrored, 39, 29)).toBe(GOLD_AT);
  expect(inkAt(mirrored, 41, 29)).toBe(0);
  const half: Picture = {
    width: 200,
    height: 100,
    data: Uint8Array.from({ length: 80_000 }, (_, i) => {
      const p = i >> 2;
      return art.data[(Math.floor(p / 200) * 2 * 400 + (p % 200) * 2) * 4 + (i & 3)] as number;
    }),
  };
  const reduced = preview(jobWith([piece({ regions: [square()] })]), half);
  expect(inkAt(reduced, -39, 29)).toBe(GOLD_AT);
  expect(inkAt(reduced, -41, 29)).toBe(0);
});

test('only one ink changes where only one is asked for, and bare stays bare where it should', () => {
  const ring: [number, number][] = [
    [100, 100],
    [300, 100],
    [300, 190],
    [100, 190],
  ];
  const shape = { kind: 'lasso', ring } as const;
  // Art points: coral is left of 200, bare is below 150, which is t = −25.
  const all = preview(jobWith([piece({ regions: [square({ shape: { ...shape } })] })]));
  expect([inkAt(all, -30, -10), inkAt(all, 30, -10), inkAt(all, 0.5, -40)]).toEqual([2, 2, 2]);
  const inked = preview(jobWith([piece({ regions: [square({ shape: { ...shape }, bareStays: true })] })]));
  expect([inkAt(inked, -30, -10), inkAt(inked, 30, -10), inkAt(inked, 0.5, -40)]).toEqual([2, 2, null]);
  const one = preview(jobWith([piece({ regions: [square({ shape: { ...shape }, only: 'coral' })] })]));
  expect([inkAt(one, -30, -10), inkAt(one, 30, -10), inkAt(one, 0.5, -40)]).toEqual([2, 1, null]);
  const bare = preview(jobWith([piece({ regions: [square({ shape: { ...shape }, to: null })] })]));
  expect([inkAt(bare, -30, -10), inkAt(bare, 30, -10)]).toEqual([null, null]);
});

test('a brush is as wide as its radius says, round at its ends', () => {
  const shape = {
    kind: 'brush',
    radius: 20,
    path: [
      [60, 60],
      [160, 60],
    ],
  } as HandRegion['shape'];
  const made = preview(jobWith([piece({ regions: [square({ shape })] })]));
  const [, , gold] = made.separations as [Mask, Mask, Mask];
  // Art points are half a mm: a bar of 50 × 20 mm and a disc of 10 mm radius, at 25 points a mm².
  const truth = (50 * 20 + Math.PI * 100) * 25;
  expect(Math.abs(inkCount(gold) - truth)).toBeLessThan(0.006 * truth);
  expect(inkAt(made, -79.5, 20)).toBe(GOLD_AT);
  expect(inkAt(made, -79.5, 26)).toBe(0);
});

test('films and previews honour a region alike', async () => {
  const job = jobWith([piece({ regions: [square()] })]);
  const codec = { decode: async () => done(art) } as unknown as ImageCodec;
  const masks = await faceMasks(job, 'bottom', DPI, 'surface', {
    art: new Map([['a'.repeat(64), new Uint8Array(1)]]),
    codec,
    workers: inlineWorkers,
  });
  if (!masks.ok) throw new Error(masks.reason);
  preview(job).separations.forEach((mask, i) => {
    expect(equal(mask, masks.value.separations[i] as Mask)).toBe(true);
  });
});

test('a colour of the art given to an ink prints in it; one given to bare wood does not print', () => {
  const job = jobWith([piece()]);
  const { bottom } = job.faces;
  const given = preview(jobWith([piece()], { handColours: assignColour(bottom, CORAL, 'gold').handColours }));
  expect(inkAt(given, -50, 0)).toBe(GOLD_AT);
  expect(isBlank(given.separations[0] as Mask)).toBe(true);
  const bare = preview(jobWith([piece()], { handColours: assignColour(bottom, BLUE, null).handColours }));
  expect(inkAt(bare, 50, 0)).toBeNull();
  const again = assignColour(assignColour(bottom, CORAL, 'gold'), CORAL, 'blue');
  expect(again.handColours).toEqual([{ hex: CORAL, ink: 'blue' }]);
});

test('merged inks print as one, with what hands gave to either', () => {
  const job = jobWith([piece({ regions: [square({ to: 'coral', only: 'blue' })] })]);
  const merged = mergeInks(job.faces.bottom, 'coral', 'gold');
  expect(merged.inks.map((ink) => ink.id)).toEqual(['blue', 'gold']);
  expect(merged.handColours).toEqual([{ hex: CORAL, ink: 'gold' }]);
  expect(merged.art[0]?.regions?.[0]).toMatchObject({ to: 'gold', only: 'blue' });
  const before = preview(job);
  const after = preview({ ...job, faces: { ...job.faces, bottom: merged } });
  expect(equal(after.separations[1] as Mask, before.separations[0] as Mask)).toBe(true);
  expect(equal(after.separations[0] as Mask, before.separations[1] as Mask)).toBe(true);
  expect(mergeInks(job.faces.bottom, 'coral', 'nobody')).toBe(job.faces.bottom);
});

test('an ink that goes takes what was given to it by hand along', () => {
  const job = jobWith([piece({ regions: [square(), square({ id: 'r2', to: 'blue' })] })], {
    handColours: [{ hex: CORAL, ink: 'gold' }],
  });
  const left = withoutInk(job.faces.bottom, 'gold');
  expect(left.art[0]?.regions?.map((r) => r.id)).toEqual(['r2']);
  expect(left.handColours).toEqual([]);
  expect(left.inks.map((ink) => ink.id)).toEqual(['coral', 'blue']);
});

test('a protected ink keeps its specks, however small; another loses them', () => {
  const speck = { ...art, data: Uint8Array.from(art.data) };
  for (const [x, y] of [
    [100, 60],
    [300, 60],
  ] as const)
    speck.data.set([242, 182, 50, 255], (y * 400 + x) * 4);
  const dotted: Picture = speck;
  const job = jobWith([piece()], { smallest: 1 });
  const lost = preview(job, dotted);
  expect(isBlank(lost.separations[2] as Mask)).toBe(true);
  const inks = job.faces.bottom.inks.map((ink) => (ink.id === 'gold' ? { ...ink, kept: true } : ink));
  const kept = preview(jobWith([piece()], { smallest: 1, inks }), dotted);
  expect(isBlank(kept.separations[2] as Mask)).toBe(false);
});

test('shaded art honours hands too: a region in dots of its ink alone, a bare one without dots', () => {
  const gold = square();
  const bare = square({
    id: 'r2',
    to: null,
    shape: {
      kind: 'lasso',
      ring: [
        [250, 40],
        [350, 40],
        [350, 90],
        [250, 90],
      ],
    },
  });
  const made = preview(jobWith([piece({ regions: [gold, bare] })], { method: 'index' }));
  // Well inside each region (5 points from its edges), by ink.
  const count = (s0: number, s1: number, t0: number, t1: number) =>
    made.separations.map((mask) => {
      let n = 0;
      for (let s = s0; s < s1; s += 0.2)
        for (let t = t0; t < t1; t += 0.2)
          if (
            getBit(mask, Math.floor((s - made.box.x) * 5), Math.floor((made.box.y + made.box.height - t) * 5))
          )
            n++;
      return n;
    }) as [number, number, number];
  const inGold = count(-38, 8, 8, 28);
  expect(inGold[0] + inGold[1]).toBe(0);
  expect(inGold[2]).toBeGreaterThan(0.99 * (46 * 20 * 25));
  expect(count(27, 73, 8, 28)).toEqual([0, 0, 0]);
  const followed = preview(
    jobWith([piece()], { method: 'index', handColours: [{ hex: CORAL, ink: 'gold' }] }),
  );
  expect(inkCount(followed.separations[0] as Mask)).toBeLessThan(
    0.01 * inkCount(followed.separations[2] as Mask),
  );
});
