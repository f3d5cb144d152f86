import { describe, expect, test } from 'vitest';
import {
  type Deck,
  deckTemplate,
  type Face,
  HOLE_CHOICES,
  type HoleChoice,
  type NoseTo,
  orderHoles,
  outlineRing,
  snapHole,
  squareOutline,
  tracedDeck,
  traceOutline,
  truckHoles,
} from '../../../core/deck/index.ts';
import { distanceToRing } from '../../../core/deck/ringTests.ts';
import { photograph, pinhole, type Scene, type View } from './photograph.ts';

/** Pale maple on dark card, in plain light. */
const PALE: Scene = {
  width: 2000,
  height: 800,
  wood: [222, 190, 140],
  ground: [52, 56, 60],
  hole: [20, 18, 16],
  shade: 0,
  noise: 4,
};
const deck = deckTemplate('popsicle-8.25')!;

/** Clicks up to a px off, snapped to their holes, in no order. */
function clicks(picture: ReturnType<typeof photograph>, of: Deck, face: Face, view: View, which: HoleChoice) {
  const holes = truckHoles(of, face);
  const sloppy = HOLE_CHOICES[which].map((i, k) => {
    const [x, y] = view(holes[i]!.x, holes[i]!.y, 0);
    return [x + [0.9, -0.7, 0.4][k % 3]!, y + [-0.8, 0.5, 0.9, -0.3][k % 4]!] as const;
  });
  const snapped = sloppy.map(([x, y]) => {
    const at = snapHole(picture, x, y, 16);
    if (!at) throw new Error('A plain hole was not found.');
    return at;
  });
  return [...snapped].reverse();
}

/** The greatest distance, mm, either way between a traced deck's outline and the one that was drawn. */
function farthest(of: Deck, traced: Deck): number {
  const truth = outlineRing(of, 'bottom', 0.005);
  const got = outlineRing(traced, 'bottom', 0.005);
  return Math.max(
    ...got.map(([x, y]) => distanceToRing(truth, x, y)),
    ...truth.map(([x, y]) => distanceToRing(got, x, y)),
  );
}

interface Case {
  readonly name: string;
  readonly view: View;
  readonly scene?: Partial<Scene>;
  readonly face?: Face;
  readonly which?: HoleChoice;
  readonly noseTo?: NoseTo;
  readonly wheelbase?: 'known' | 'solved';
  /** mm over the wood, where the bent board itself is photographed. */
  readonly cameraHeight?: number;
}

const over = (z: number, px: number) => pinhole([0, 0, z], [0, 0, 0], 0, (z * px) / 900, [1000, 400]);
const askew = pinhole([260, -420, 1500], [10, 5, 0], 0.04, 2900, [1000, 400]);

// Bound for all of them: 0.3 mm. Photographs are drawn by a pinhole camera, not by the code under test.
const cases: readonly Case[] = [
  { name: 'from straight above, eight holes, wheelbase solved', view: over(2000, 1950), wheelbase: 'solved' },
  { name: 'askew, eight holes, wheelbase known', view: askew },
  { name: 'askew, eight holes, wheelbase solved', view: askew, wheelbase: 'solved' },
  { name: 'askew, the four outer holes, wheelbase known', view: askew, which: 'outer' },
  {
    name: 'from straight above, the four outer holes, wheelbase solved',
    view: over(2000, 1950),
    which: 'outer',
    wheelbase: 'solved',
  },
  {
    name: 'from straight above, the holes of the tail’s truck',
    view: over(2000, 1950),
    which: 'tail',
  },
  {
    name: 'dark plum stain on white paper, the lamp to one side',
    view: askew,
    scene: { wood: [74, 38, 62], ground: [244, 244, 240], hole: [250, 250, 250], shade: 0.45 },
  },
  {
    name: 'no lighter or darker than its ground, only warmer',
    view: askew,
    scene: { wood: [200, 150, 90], ground: [130, 165, 190] },
  },
  {
    name: 'the top face, nose down',
    view: pinhole([100, 60, 2000], [0, 0, 0], Math.PI / 2, 4200, [400, 1000]),
    scene: { width: 800, height: 2000 },
    face: 'top',
    noseTo: 'down',
  },
  { name: 'the bent board itself from 1.5 m, bottom', view: over(1500, 1900), cameraHeight: 1500 },
  { name: 'the bent board itself from 2.5 m, top', view: over(2500, 1900), cameraHeight: 2500, face: 'top' },
];

describe('an outline traced in a photograph comes out within 0.3 mm', () => {
  for (const c of cases)
    test(c.name, () => {
      const face = c.face ?? 'bottom';
      const which = c.which ?? 'all';
      const scene = { ...PALE, ...c.scene };
      const picture = photograph(deck, face, c.view, c.cameraHeight !== undefined, scene);
      const trace = traceOutline(picture);
      if (!trace.ok) throw new Error(trace.reason);
      const ordered = orderHoles(clicks(picture, deck, face, c.view, which), c.noseTo ?? 'right');
      if (!ordered.ok) throw new Error(ordered.reason);
      // Another deck of the same hole pattern is on the bench: nothing of its shape may come through.
      const bench = {
        ...deckTemplate('popsicle-7.75')!,
        nose: deck.nose,
        tail: deck.tail,
        concave: deck.concave,
      };
      const wheelbase = c.wheelbase === 'solved' ? null : deck.wheelbase;
      const squaring = squareOutline(bench, ordered.value, wheelbase, which);
      if (!squaring.ok) throw new Error(squaring.reason);
      if (squaring.value.spare > 0) expect(squaring.value.residual).toBeLessThan(0.1);
      const camera = c.cameraHeight
        ? { height: c.cameraHeight, x: scene.width / 2, y: scene.height / 2 }
        : null;
      const traced = tracedDeck(bench, trace.value.ring, squaring.value, { face, source: 'photo', camera });
      if (!traced.ok) throw new Error(traced.reason);
      expect(farthest(deck, traced.value)).toBeLessThan(0.3);
      expect(Math.abs(traced.value.wheelbase - deck.wheelbase)).toBeLessThan(0.3);
    });
});

describe('what can not be traced or squared is refused with a sentence', () => {
  const even = (value: number) => ({
    width: 300,
    height: 200,
    data: new Uint8Array(300 * 200 * 4).fill(value),
  });

  test('an even picture, and one of noise', () => {
    expect(traceOutline(even(255))).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/No deck stands out/),
    });
    const noisy = even(255);
    for (let i = 0; i < noisy.data.length; i++) noisy.data[i] = i % 4 === 3 ? 255 : 120 + ((i * 7919) % 13);
    expect(traceOutline(noisy)).toMatchObject({ ok: false });
  });

  test('a deck that runs out of the picture', () => {
    const cut = photograph(deck, 'bottom', over(2000, 2600), false, PALE);
    expect(traceOutline(cut)).toMatchObject({ ok: false, reason: expect.stringMatching(/runs out/) });
  });

  test('a crumb of a picture', () => {
    expect(traceOutline({ width: 3, height: 3, data: new Uint8Array(36) })).toMatchObject({ ok: false });
  });

  test('one truck without the wheelbase; the holes of one rail; a hole clicked twice', () => {
    const four = truckHoles(deck, 'bottom')
      .slice(0, 4)
      .map(({ x, y }) => [x, -y] as const);
    expect(squareOutline(deck, four, null, 'tail')).toMatchObject({ ok: false });
    expect(
      orderHoles(
        [
          [0, 0],
          [100, 0],
          [200, 0],
          [300, 0],
        ],
        'right',
      ),
    ).toMatchObject({ ok: false });
    expect(orderHoles([...four.slice(0, 3), four[0]!], 'right')).toMatchObject({ ok: false });
    expect(orderHoles(four, 'up')).toMatchObject({ ok: false });
    expect(orderHoles(four.slice(0, 3), 'right')).toMatchObject({ ok: false });
  });

  test('four holes leave nothing over to judge by, and say so; a scan’s four do', () => {
    const outer = HOLE_CHOICES.outer
      .map((i) => truckHoles(deck, 'bottom')[i]!)
      .map(({ x, y }) => [x, -y] as const);
    expect(squareOutline(deck, outer, deck.wheelbase, 'outer')).toMatchObject({ value: { spare: 0 } });
    const moved = outer.map(([x, y], i): [number, number] => (i === 1 ? [x, y + 2] : [x, y]));
    const scan = squareOutline(deck, moved, null, 'outer');
    expect(scan.ok && scan.value.spare).toBe(3);
    expect(scan.ok && scan.value.residual).toBeGreaterThan(0.5);
  });

  test('no hole where there is none', () => {
    expect(snapHole(even(200), 150, 100, 12)).toBeNull();
  });
});

test('a threshold of one’s own is used as it is', () => {
  const picture = photograph(deck, 'bottom', over(2000, 1950), false, PALE);
  for (const threshold of [100, 150]) {
    const trace = traceOutline(picture, { threshold });
    expect(trace.ok && trace.value.threshold).toBe(threshold);
  }
  expect(traceOutline(picture, { threshold: 252 })).toMatchObject({ ok: false });
});
