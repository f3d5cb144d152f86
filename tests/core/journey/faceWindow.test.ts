import { describe, expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { facePreview } from '../../../core/facePreview.ts';
import { faceWindow } from '../../../core/faceWindow.ts';
import { inkFrom, type Job, newJob, placeArt } from '../../../core/job/index.ts';
import { crop, getBit, inkCount, type Mask } from '../../../core/raster/index.ts';
import { pxPerMm } from '../../../core/units/index.ts';

const HASH = 'a'.repeat(64);
const DPI = 150;
const W = 1600;
const H = 420;

/** Slanted bands of three flat colours, so that every window holds edges and traps. */
function bands(): Uint8Array {
  const data = new Uint8Array(W * H * 4);
  const colours = [
    [242, 182, 50],
    [27, 36, 64],
    [232, 97, 60],
  ];
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++) {
      const c = colours[Math.floor((x + 0.7 * y) / 23) % 3]!;
      data.set([...c, 255], (y * W + x) * 4);
    }
  return data;
}

const pictures = new Map([[HASH, { width: W, height: H, data: bands() }]]);

function job(): Job {
  let made = newJob({ name: 'window', deck: deckTemplate('popsicle-8.25')! });
  const art = { name: 'bands', hash: HASH, mediaType: 'image/png' as const, widthPx: W, heightPx: H };
  const placed = placeArt(
    made,
    'bottom',
    { ...art, stated: null, ground: null },
    { fit: 'cover', wrap: 'surface', artDpi: null },
  );
  if (!placed.ok) throw new Error(placed.reason);
  made = placed.value.job;
  const inks: Job['faces']['bottom']['inks'] = [];
  for (const [name, hex, role] of [
    ['White', '#f7f3e8', 'base'],
    ['Yellow', '#f2b632', 'colour'],
    ['Coral', '#e8613c', 'colour'],
    ['Blue', '#1b2440', 'colour'],
  ] as const)
    inks.push(inkFrom({ name, hex, role, needsBase: 'all' }, inks));
  return { ...made, faces: { ...made.faces, bottom: { ...made.faces.bottom, inks } } };
}

const different = (a: Mask, b: Mask) => {
  let n = 0;
  for (let y = 0; y < a.height; y++)
    for (let x = 0; x < a.width; x++) if (getBit(a, x, y) !== getBit(b, x, y)) n++;
  return n;
};

describe('a small window of a face', () => {
  const whole = facePreview({ job: job(), face: 'bottom', pictures, dpi: DPI, traps: true });
  test.each([
    ['mid-wheelbase', -6, -4],
    ['between the trucks and the nose', 210, 30],
    ['on the kick', 330, -20],
    ['over the rail', 0, 98],
  ] as const)('%s is what the whole face has there: traps, base, holes and edge', (_, x, y) => {
    if (!whole.ok) throw new Error(whole.reason);
    const window = { x, y, width: 14, height: 11 };
    const made = faceWindow({ job: job(), face: 'bottom', pictures, dpi: DPI, window });
    if (!made.ok) throw new Error(made.reason);
    const { box, width, height } = made.value;
    const scale = pxPerMm(DPI);
    const left = Math.round((box.x - whole.value.box.x) * scale);
    const top = Math.round((whole.value.box.y + whole.value.box.height - box.y - box.height) * scale);
    const there = (mask: Mask) => crop(mask, left, top, width, height);
    expect(different(made.value.deck, there(whole.value.deck))).toBe(0);
    expect(different(made.value.holes, there(whole.value.holes))).toBe(0);
    let ink = 0;
    for (const kind of ['separations', 'prints'] as const)
      for (const [i, mask] of made.value[kind].entries()) {
        ink += inkCount(mask);
        // The bend is tabulated from another corner: an edge may fall a point aside, no more.
        expect(different(mask, there(whole.value[kind][i]!))).toBeLessThan(0.01 * width * height);
      }
    expect(ink).toBeGreaterThan(0);
  });

  test('a face whose layers are for no ink is refused in a sentence', () => {
    const other = job();
    const made = faceWindow({
      job: { ...other, faces: { ...other.faces, bottom: { ...other.faces.bottom, method: 'layered' } } },
      face: 'bottom',
      pictures,
      dpi: DPI,
      window: { x: 0, y: 0, width: 5, height: 5 },
    });
    expect(made).toMatchObject({ ok: false, kind: 'input' });
  });
});
