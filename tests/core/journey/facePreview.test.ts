import { expect, test } from 'vitest';
import { deckTemplate, type Face } from '../../../core/deck/index.ts';
import { facePreview, faceProof } from '../../../core/facePreview.ts';
import { type Art, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import {
  equal,
  getBit,
  inkCount,
  intersect,
  isBlank,
  type Mask,
  type Picture,
  subtract,
} from '../../../core/raster/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');

/** A picture of upright bars: left half red, right half blue, transparent elsewhere by `alpha`. */
function bars(width: number, height: number, colours: readonly (readonly number[])[]): Picture {
  const data = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      data.set(colours[Math.floor((x * colours.length) / width)] as number[], (y * width + x) * 4);
  return { width, height, data };
}
const RED = [232, 97, 60, 255] as const;
const BLUE = [27, 36, 64, 255] as const;
const NONE = [0, 0, 0, 0] as const;

const piece = (over: Partial<Art>): Art => ({
  id: 'bars',
  name: 'bars.png',
  hash: 'b'.repeat(64),
  mediaType: 'image/png',
  widthPx: 400,
  heightPx: 100,
  width: 200,
  height: 50,
  x: 0,
  y: 0,
  rotationDeg: 0,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
  ...over,
});

function jobWith(art: readonly Art[], face: Face = 'bottom'): Job {
  const job = newJob({ name: 'Try', deck: deck as NonNullable<typeof deck> });
  const coral = inkFrom({ name: 'Coral', hex: '#e8613c' }, []);
  const key = inkFrom({ name: 'Night blue', hex: '#1b2440' }, [coral]);
  const settings = { ...job.faces[face], art: [...art], inks: [coral, key] };
  return { ...job, faces: { ...job.faces, [face]: settings } };
}

const DPI = 100;
function preview(job: Job, pictures: Picture, face: Face = 'bottom') {
  const made = facePreview({
    job,
    face,
    pictures: new Map([['b'.repeat(64), pictures]]),
    dpi: DPI,
    traps: true,
  });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}
/** Whether the mask has ink at a place on the surface, mm. */
const inkAt = (mask: Mask, box: { x: number; y: number; height: number }, s: number, t: number) =>
  getBit(mask, Math.floor(((s - box.x) * DPI) / 25.4), Math.floor(((box.y + box.height - t) * DPI) / 25.4));
const cm2 = (mask: Mask) => (inkCount(mask) * (25.4 / DPI) ** 2) / 100;

test('art lands where it was placed, at its size, the right way round', () => {
  const { separations, box } = preview(jobWith([piece({ x: 30, y: -20 })]), bars(400, 100, [RED, BLUE]));
  const [coral, key] = separations as [Mask, Mask];
  expect(cm2(coral)).toBeCloseTo(50, 0);
  expect(cm2(key)).toBeCloseTo(50, 0);
  expect(inkAt(coral, box, 30 - 50, -20)).toBe(true);
  expect(inkAt(key, box, 30 + 50, -20)).toBe(true);
  expect(inkAt(coral, box, 30 + 50, -20)).toBe(false);
  expect(inkAt(coral, box, 30 - 101, -20)).toBe(false);
});

test('mirror swaps left and right; a quarter turn counter-clockwise brings the right end up', () => {
  const mirrored = preview(jobWith([piece({ mirror: true })]), bars(400, 100, [RED, BLUE]));
  expect(inkAt(mirrored.separations[0] as Mask, mirrored.box, 50, 0)).toBe(true);
  const turned = preview(jobWith([piece({ rotationDeg: 90 })]), bars(400, 100, [RED, BLUE]));
  expect(inkAt(turned.separations[1] as Mask, turned.box, 0, 50)).toBe(true);
  expect(inkAt(turned.separations[0] as Mask, turned.box, 0, -50)).toBe(true);
});

test('a piece above hides the one beneath it, and its transparent parts do not', () => {
  const below = piece({ id: 'below' });
  const above = piece({ id: 'above', hash: 'c'.repeat(64), width: 100 });
  const job = jobWith([below, above]);
  const made = facePreview({
    job,
    face: 'bottom',
    pictures: new Map([
      ['b'.repeat(64), bars(400, 100, [RED])],
      ['c'.repeat(64), bars(400, 100, [BLUE, NONE])],
    ]),
    dpi: DPI,
    traps: false,
  });
  if (!made.ok) throw new Error(made.reason);
  const [coral, key] = made.value.separations as [Mask, Mask];
  expect(inkAt(key, made.value.box, -25, 0)).toBe(true);
  expect(inkAt(coral, made.value.box, -25, 0)).toBe(false);
  expect(inkAt(coral, made.value.box, 25, 0)).toBe(true);
  expect(isBlank(intersect(coral, key))).toBe(true);
});

test('the lighter, earlier ink runs half a millimetre under the key and never onto bare wood', () => {
  const { separations, prints } = preview(jobWith([piece({})]), bars(400, 100, [RED, BLUE]));
  const [coral, key] = separations as [Mask, Mask];
  const added = subtract(prints[0] as Mask, coral);
  expect(inkCount(added)).toBeGreaterThan(0);
  expect(isBlank(subtract(added, key))).toBe(true);
  // A strip 0.5 mm wide along a 50 mm edge: two points wide at 100 dpi (0.508 mm), the disc's own width.
  expect(inkCount(added) / ((50 * DPI) / 25.4)).toBeCloseTo(1, 0);
  expect(equal(prints[1] as Mask, key)).toBe(true);
});

test('an ink recoloured by hand keeps its film: it still prints the colour of the art that it matches', () => {
  const job = jobWith([piece({})]);
  const [coral, key] = job.faces.bottom.inks as [never, never];
  const lilac = { ...(coral as object), hex: '#b58fd0', matches: '#e8613c' } as never;
  const faces = { ...job.faces, bottom: { ...job.faces.bottom, inks: [lilac, key] } };
  const picture = bars(400, 100, [RED, BLUE]);
  const [before] = preview(job, picture).separations as [Mask, Mask];
  const [after] = preview({ ...job, faces }, picture).separations as [Mask, Mask];
  expect(equal(after, before)).toBe(true);
});

test('plan art is longer on the wood of a kick than in plan: by 1/cos of the ramp', () => {
  const steep = { ...(deck as NonNullable<typeof deck>) };
  steep.concave = { ...steep.concave, depth: 0, fade: 0 };
  const job = { ...jobWith([piece({ wrap: 'plan', width: 40, height: 20, x: 345, y: 0 })]), deck: steep };
  const plan = preview(job, bars(400, 100, [RED]));
  const flat = preview(
    { ...job, deck: { ...steep, nose: { ...steep.nose, angleDeg: 0 } } },
    bars(400, 100, [RED]),
  );
  const ratio = inkCount(plan.separations[0] as Mask) / inkCount(flat.separations[0] as Mask);
  // The piece is 157 points long: each of its two ends may fall half a point either way.
  expect(Math.abs(ratio - 1 / Math.cos((steep.nose.angleDeg * Math.PI) / 180))).toBeLessThan(1 / 157);
});

test('the proof shows wood, inks and a clear surround, and pulls that wander show wood between', () => {
  const job = jobWith([piece({})]);
  const made = preview(job, bars(400, 100, [RED, BLUE]));
  const ask = { job, face: 'bottom' as const, preview: made, veneerId: 'natural', colourwayId: null };
  const proof = faceProof(ask);
  const at = (s: number, t: number) => {
    const x = Math.floor(((s - made.box.x) * DPI) / 25.4);
    const y = Math.floor(((made.box.y + made.box.height - t) * DPI) / 25.4);
    return [
      ...proof.data.subarray(
        (y * (proof.width as number) + x) * 4,
        (y * (proof.width as number) + x) * 4 + 4,
      ),
    ];
  };
  expect(at(-300, 50)[3]).toBe(255);
  expect(at(made.box.x + 0.5, made.box.y + 0.5)[3]).toBe(0);
  const key = at(50, 0);
  expect(Math.max(...key.slice(0, 3))).toBeLessThan(90);
  const off = faceProof({ ...ask, misregisterMm: 2, seed: 3 });
  expect(Buffer.from(off.data).equals(Buffer.from(proof.data))).toBe(false);
  const again = faceProof({ ...ask, misregisterMm: 2, seed: 3 });
  expect(Buffer.from(again.data).equals(Buffer.from(off.data))).toBe(true);
});
