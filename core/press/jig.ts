import { type Deck, type Face, outlineRing, truckHoles } from '../deck/index.ts';
import { pressTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import { circle, type Drawing, type DrawnItem, drawing, path, text } from './drawing.ts';

export interface JigInput {
  /** mm inside the frame, across and along the deck. */
  readonly frameWidth: Mm;
  readonly frameLength: Mm;
  /** mm, width of the frame's wood or tube. */
  readonly frameBar: Mm;
  /** The side you stand at, or the far side: where the hinge clamps are. */
  readonly hinge: 'near' | 'far';
  /** Truck holes that bolts stand in; left out: the outer ones of each truck. */
  readonly bolts?: 'outer' | 'inner' | 'all';
}

/** Common practice, no source: measure the frame. */
export const USUAL_FRAME_BAR: Mm = 30;

/** Where two hinge clamps stand, mm on the face as seen: on the hinge line, a quarter of the frame from its middle. */
export function clampPlaces(
  input: JigInput,
): readonly [readonly [number, number], readonly [number, number]] {
  const y = hingeLine(input);
  return [
    [-input.frameLength / 4, y],
    [input.frameLength / 4, y],
  ];
}

const hingeLine = ({ frameWidth, frameBar, hinge }: JigInput): Mm =>
  (frameWidth / 2 + frameBar) * (hinge === 'near' ? -1 : 1);

/**
 * The jig's base board at 1:1 for one face, as you look down on it with the nose on your right: deck outline, truck holes
 * in their size with a centre each, frame, hinge line and clamps, and the centre lines that the film's centre marks lie
 * on. Plan mm, origin mid-wheelbase.
 */
export function jigDrawing(deck: Deck, face: Face, input: JigInput): Outcome<Drawing> {
  const { frameWidth, frameLength, frameBar, bolts = 'outer' } = input;
  const ring = outlineRing(deck, face);
  const reach = ring.reduce((most, [x]) => Math.max(most, Math.abs(x)), 0);
  const wide = ring.reduce((most, [, y]) => Math.max(most, Math.abs(y)), 0);
  if (!(frameLength / 2 > reach && frameWidth / 2 > wide))
    return pressTrouble.frameTooSmall(frameLength, frameWidth, Math.ceil(2 * reach), Math.ceil(2 * wide));
  if (!(frameBar >= 0 && frameBar <= 300)) return pressTrouble.barOutOfRange();
  const radius = deck.holes.diameter / 2;
  const items: DrawnItem[] = [path('mark', ring, true)];
  const outer = deck.wheelbase / 2 + deck.holes.along;
  for (const { x, y } of truckHoles(deck, face)) {
    items.push(circle('drill', x, y, radius));
    items.push(
      path('drill', [
        [x - radius - 2, y],
        [x + radius + 2, y],
      ]),
      path('drill', [
        [x, y - radius - 2],
        [x, y + radius + 2],
      ]),
    );
    // The outer holes unless others are wished: the longer the base between bolts, the truer the deck lies.
    const isOuter = Math.abs(Math.abs(x) - outer) < 0.5;
    if (bolts === 'all' || (bolts === 'outer') === isOuter) items.push(circle('mark', x, y, radius + 3.5));
  }
  const [fx, fy] = [frameLength / 2, frameWidth / 2];
  const box = (a: number, b: number): readonly (readonly [number, number])[] => [
    [-a, -b],
    [a, -b],
    [a, b],
    [-a, b],
  ];
  items.push(path('frame', box(fx, fy), true, true), path('frame', box(fx + frameBar, fy + frameBar), true));
  const y0 = hingeLine(input);
  const side = Math.sign(y0);
  const clamps = clampPlaces(input);
  const hingeEnd = clamps[1][0] + 50;
  items.push(
    path('mark', [
      [-hingeEnd, y0],
      [hingeEnd, y0],
    ]),
    text(-hingeEnd, y0 + (side > 0 ? -8 : 4), 4, 'hinge line'),
  );
  for (const [x] of clamps) {
    items.push(
      path('mark', [
        [x - 25, y0],
        [x - 25, y0 + side * 12],
        [x + 25, y0 + side * 12],
        [x + 25, y0],
      ]),
      path('mark', [
        [x, y0 - 6],
        [x, y0 + 6],
      ]),
      text(x, y0 + side * 7 - 2, 3.5, 'clamp', true),
    );
  }
  // Centre marks: outside the deck, so that they are seen with a deck on the jig.
  const gap = 6;
  const long = 24;
  const tips = { nose: Math.max(...ring.map(([x]) => x)), tail: Math.min(...ring.map(([x]) => x)) };
  const rail = wide + gap;
  for (const ends of [
    [
      [tips.nose + gap, 0],
      [tips.nose + gap + long, 0],
    ],
    [
      [tips.tail - gap - long, 0],
      [tips.tail - gap, 0],
    ],
    [
      [0, rail],
      [0, rail + 14],
    ],
    [
      [0, -rail - long],
      [0, -rail],
    ],
    [
      [-12, 0],
      [12, 0],
    ],
    [
      [0, -12],
      [0, 12],
    ],
  ] as const)
    items.push(path('mark', ends));
  const up = face === 'bottom' ? 'BOTTOM FACE UP' : 'TOP FACE UP';
  items.push(
    text(0, 40, 9, up, true),
    text(0, 28, 5, deck.name, true),
    text(
      0,
      -28,
      4.5,
      bolts === 'all' ? 'Bolts in all eight holes.' : 'Ringed holes: bolts. Others: only to sight through.',
      true,
    ),
    text(
      0,
      -37,
      4.5,
      `Holes ${Number(deck.holes.diameter.toFixed(2))} mm; bolts end below the printed face.`,
      true,
    ),
    text(0, -46, 4.5, 'Lines off the rails and tips: the film’s centre marks lie on them.', true),
    text(tips.nose + gap, 4, 6, 'NOSE'),
    text(tips.tail - gap - long, 4, 6, 'TAIL'),
    // The near side is below, whatever the hinge.
    text(0, -rail - long - 10, 5, 'you stand on this side, nose on your right', true),
  );
  return done(drawing(`jig-${face}`, `Jig, ${face} face up: ${deck.name}`, items, 6));
}
