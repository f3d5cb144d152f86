import { expect, test } from 'vitest';
import { deckTemplate, printableRings } from '../../core/deck/index.ts';
import { placementInverse } from '../../core/faceRaster.ts';
import { type Art, type Job, newJob, withCrop } from '../../core/job/index.ts';
import { commonBox, moveTogether } from '../../renderer/art/commonBox.ts';
import { cropToPrint } from '../../renderer/art/cropToPrint.ts';
import { withCopies } from '../../renderer/art/pieceCopies.ts';
import { cropped } from '../../renderer/board/cropped.ts';
import { grouped, reflected, reordered, ungrouped, withGroups } from '../../renderer/state/pieces.ts';

const piece = (id: string, over: Partial<Art> = {}): Art => ({
  id,
  name: id,
  hash: 'a'.repeat(64),
  mediaType: 'image/png',
  widthPx: 100,
  heightPx: 50,
  width: 40,
  height: 20,
  x: 0,
  y: 0,
  rotationDeg: 0,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
  ...over,
});
function jobOf(art: readonly Art[]): Job {
  const job = newJob({ name: 'Pieces', deck: deckTemplate('popsicle-8.25')! });
  return { ...job, faces: { ...job.faces, bottom: { ...job.faces.bottom, art: [...art] } } };
}
const job = jobOf(['a', 'b', 'c', 'd'].map((id) => piece(id)));
const ids = (j: Job) => j.faces.bottom.art.map((a) => a.id).join('');
const inArt = (art: Art, x: number, y: number) => {
  const out = new Float64Array(2);
  placementInverse(art)(x, y, out);
  return [...out];
};

test('pieces come forward and go back together and keep their order among themselves', () => {
  expect(ids(reordered(job, 'bottom', ['a', 'c'], 'front'))).toBe('bdac');
  expect(ids(reordered(job, 'bottom', ['b', 'd'], 'rear'))).toBe('bdac');
  expect(ids(reordered(job, 'bottom', ['a'], 'forward'))).toBe('bacd');
  expect(ids(reordered(job, 'bottom', ['d'], 'back'))).toBe('abdc');
  expect(ids(reordered(job, 'bottom', ['a', 'b'], 'forward'))).toBe('cabd');
  expect(reordered(job, 'bottom', ['d'], 'front')).toBe(job);
  expect(reordered(job, 'bottom', ['a', 'b'], 'back')).toBe(job);
});

test('of a group one piece brings the others; ungrouped, each is for itself', () => {
  const two = grouped(grouped(job, 'bottom', ['a', 'c']), 'bottom', ['b', 'd']);
  const { art } = two.faces.bottom;
  expect(withGroups(art, ['c'])).toEqual(['a', 'c']);
  expect(withGroups(art, ['a', 'd'])).toEqual(['a', 'b', 'c', 'd']);
  const apart = ungrouped(two, 'bottom', ['a', 'c']);
  expect(withGroups(apart.faces.bottom.art, ['c'])).toEqual(['c']);
  expect('group' in apart.faces.bottom.art[0]!).toBe(false);
});

test('copies of a group are a group of their own', () => {
  const two = grouped(job, 'bottom', ['a', 'c']);
  const { art } = two.faces.bottom;
  const made = withCopies(
    two,
    'bottom',
    art.filter((p) => p.group),
    10,
  );
  const copies = made.job.faces.bottom.art.filter((p) => made.ids.includes(p.id));
  expect(new Set(copies.map((c) => c.group)).size).toBe(1);
  expect(copies[0]!.group).not.toBe(art[0]!.group);
});

test('a mirror swaps sides point by point, whatever the turn', () => {
  const turned = piece('a', { x: 31, y: -8, rotationDeg: 27, mirror: true });
  for (const [x, y] of [
    [40, -3],
    [25, 4],
  ] as const) {
    const here = inArt(turned, x, y);
    const along = inArt(reflected(turned, 'along', 12), 24 - x, y);
    const across = inArt(reflected(turned, 'across', 5), x, 10 - y);
    for (const i of [0, 1]) {
      expect(along[i]).toBeCloseTo(here[i]!, 9);
      expect(across[i]).toBeCloseTo(here[i]!, 9);
    }
  }
  expect(reflected(reflected(turned, 'along', 12), 'along', 12)).toEqual(turned);
});

test('several pieces are placed and sized as one', () => {
  const art = [piece('a', { x: -50 }), piece('b', { x: 50, y: 30, rotationDeg: 90 })];
  expect(commonBox(art)).toEqual({ x: -5, y: 20, width: 130, height: 60 });
  const moved = art.map((a) => ({ ...a, ...moveTogether(art, { x: 0, scale: 2 }).get(a.id) }));
  const box = commonBox(moved);
  expect([box.x, box.y, box.width, box.height].map((n) => Number(n.toFixed(9)))).toEqual([0, 20, 260, 120]);
});

test('a crop to the printable area takes off what lies outside its box and nothing inside', () => {
  const big = piece('big', { width: 2000, height: 400, x: 20, y: 10, rotationDeg: 12 });
  const cut = { ...big, ...withCrop(big, cropToPrint(jobOf([big]), 'bottom', big)) };
  expect(cut.width).toBeLessThan(1000);
  const [rim] = printableRings(job.deck, 'bottom', {
    railMargin: job.faces.bottom.railMargin,
    clearHoles: 0,
    reach: null,
  });
  const shares = rim!.map(([s, t]) => {
    const [u, v] = inArt(cut, s, t) as [number, number];
    const { left, right, top, bottom } = cut.crop!;
    return [(u - left) / (1 - left - right), (v - top) / (1 - top - bottom)] as const;
  });
  for (const axis of [0, 1] as const) {
    const on = shares.map((s) => s[axis]);
    expect(Math.min(...on)).toBeCloseTo(0, 6);
    expect(Math.max(...on)).toBeCloseTo(1, 6);
  }
});

test('handles crop: what stays keeps its place, and no further than the art goes', () => {
  const turned = piece('a', { rotationDeg: 90, x: 5, y: 5 });
  // The hand pulled the end at the art's left, which lies at the rail below, up by 10 mm.
  const hand = { x: 5, y: 10, width: 30, height: 20, rotationDeg: 90, mirror: false };
  const cut = { ...turned, ...cropped(turned, new Map([['a', hand]])).get('a') };
  expect(cut.crop).toEqual({ left: 0.25, right: 0, top: 0, bottom: 0 });
  expect([cut.x, cut.y, cut.width].map((n) => Number(n.toFixed(9)))).toEqual([5, 10, 30]);
  const out = { ...hand, y: -10, width: 70 };
  const open = { ...cut, ...cropped(cut, new Map([['a', out]])).get('a') };
  expect(open.width).toBeCloseTo(40, 9);
  expect(open.crop).toBeUndefined();
});
