import { expect, test } from 'vitest';
import { linearOfHex } from '../../../core/colour/index.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceProof } from '../../../core/facePreview.ts';
import { inkFrom, newJob } from '../../../core/job/index.ts';
import { proofGrid } from '../../../core/proofGrid.ts';
import { blankMask, complement } from '../../../core/raster/index.ts';

const fresh = newJob({ name: 'Try', deck: deckTemplate('popsicle-8.25')! });
const coral = inkFrom({ name: 'Coral', hex: '#e8613c', opacity: 1 }, []);
const job = {
  ...fresh,
  veneers: [
    { id: 'maple', name: 'Maple', hex: '#dcb98a', decks: 3 },
    { id: 'teal', name: 'Teal', hex: '#2f6472', decks: 3 },
  ],
  colourways: [
    { id: 'own', name: 'Own', colours: {} },
    { id: 'lilac', name: 'Lilac', colours: { coral: { name: 'Lilac', hex: '#b58fd0' } } },
  ],
  faces: { ...fresh.faces, bottom: { ...fresh.faces.bottom, inks: [coral] } },
};
/** A deck of 100 × 20 points, its left half inked; a point is a mm. */
const [width, height] = [100, 20];
const half = blankMask(width, height);
for (let y = 0; y < height; y++)
  for (let x = 0; x < 50; x++) half.data[y * half.stride + (x >> 5)]! |= 1 << (x & 31);
const preview = {
  box: { x: 0, y: 0, width, height },
  width,
  height,
  dpi: 25.4,
  separations: [half],
  prints: [half],
  deck: complement(blankMask(width, height)),
  holes: blankMask(width, height),
};

test('every veneer has a row and every colourway a column; each cell is the proof itself, under its name', () => {
  const { picture, cells } = proofGrid({ job, face: 'bottom', plates: { preview, reduce: 1 } });
  expect(cells).toEqual([
    { veneerId: 'maple', colourwayId: 'own' },
    { veneerId: 'maple', colourwayId: 'lilac' },
    { veneerId: 'teal', colourwayId: 'own' },
    { veneerId: 'teal', colourwayId: 'lilac' },
  ]);
  const wide = picture.width as number;
  const gap = 22;
  const head = 28;
  expect(wide).toBe(gap + 2 * (width + gap));
  expect(picture.height).toBe(gap + 2 * (height + head + gap));
  cells.forEach(({ veneerId, colourwayId }, i) => {
    const [left, top] = [gap + (i % 2) * (width + gap), gap + Math.floor(i / 2) * (height + head + gap)];
    const proof = faceProof({ job, face: 'bottom', preview, veneerId, colourwayId });
    for (const [x, y] of [
      [10, 10],
      [90, 10],
    ] as const)
      expect([...picture.data.subarray(4 * ((top + head + y) * wide + left + x)).subarray(0, 3)]).toEqual([
        ...proof.data.subarray(4 * (y * width + x)).subarray(0, 3),
      ]);
    // Something dark is written over each.
    let darkest = 1;
    for (let y = top; y < top + head; y++)
      for (let x = left; x < left + width; x++) {
        const at = 4 * (y * wide + x);
        const hex = `#${[...picture.data.subarray(at, at + 3)].map((v) => v.toString(16).padStart(2, '0')).join('')}`;
        darkest = Math.min(darkest, linearOfHex(hex)[1]);
      }
    expect(darkest).toBeLessThan(0.05);
  });
});
