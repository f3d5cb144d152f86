import { type Canvas, joined, within } from './canvas.ts';
import { arc, dice, even, type Pt, part, type Ring, stroke, taper, through } from './curve.ts';
import { HORIZON, MOON } from './sky.ts';

/** A breaking crest curling to the left, in a box: foot from (0,0) to (w,0), lip at about (0.2w, -h). */
function crest(x: number, y: number, w: number, h: number): { body: Ring; foam: Ring; lines: Ring[] } {
  const at = (px: number, py: number): Pt => [x + px * w, y + py * h];
  const back = through([
    at(1.25, 0.1),
    at(1, -0.2),
    at(0.78, -0.62),
    at(0.52, -0.94),
    at(0.24, -1),
    at(0.03, -0.78),
    at(0.02, -0.58),
  ]);
  const face = through([
    at(0.02, -0.58),
    at(0.15, -0.68),
    at(0.26, -0.56),
    at(0.24, -0.3),
    at(0.1, -0.08),
    at(-0.25, 0.1),
  ]);
  const body = [...back, ...face];
  const lip = through([
    at(0.86, -0.5),
    at(0.66, -0.86),
    at(0.46, -1.02),
    at(0.22, -1.08),
    at(0.0, -0.86),
    at(-0.03, -0.6),
    at(0.03, -0.5),
  ]);
  const under = through([
    at(0.03, -0.5),
    at(0.08, -0.62),
    at(0.05, -0.72),
    at(0.14, -0.76),
    at(0.15, -0.86),
    at(0.27, -0.84),
    at(0.34, -0.92),
    at(0.45, -0.86),
    at(0.56, -0.84),
    at(0.62, -0.72),
    at(0.74, -0.66),
    at(0.86, -0.5),
  ]);
  const lines = [0, 1, 2, 3].map((k) => {
    const s = 0.1 + k * 0.13;
    return stroke(
      through([
        at(0.34 + s, -0.72 + s * 0.7),
        at(0.34 + s * 0.9, -0.44 + s * 0.3),
        at(0.22 + s * 0.8, -0.12 + s * 0.1),
        at(0.02 + s, 0.06),
      ]),
      taper(0.55 + h * 0.025),
    );
  });
  return { body, foam: [...lip, ...under], lines };
}

export function drawWater(art: Canvas): void {
  const roll = dice(19);
  art.group('water');
  const top: Pt[] = [];
  for (let x = -6; x <= 852; x += 13) top.push([x, HORIZON + (Math.round(x / 13) % 2 ? 0.5 : -0.5)]);
  const sea: Ring = [...through(top), [852, 218], [-6, 218]];
  art.paint('green', sea);
  // Far ripples: short dark dashes that lengthen as they come nearer, with wood showing on their light side.
  const dark: Ring[] = [];
  const light: Ring[] = [];
  const foam: Ring[] = [];
  for (let row = 0; row < 9; row++) {
    const y = HORIZON + 2.4 + row * 3.1 + row * row * 0.12;
    const size = 12 + row * 4.2;
    for (let x = -20 + roll() * 20; x < 850; ) {
      const long = size * (0.6 + roll() * 0.9);
      const sag = 0.6 + row * 0.14;
      const line = through([
        [x, y],
        [x + long * 0.3, y + sag],
        [x + long * 0.6, y - sag * 0.4],
        [x + long, y + sag * 0.2],
      ]);
      dark.push(stroke(line, taper(0.75 + row * 0.13)));
      if (roll() > 0.45)
        light.push(
          stroke(
            part(
              line.map(([px, py]) => [px + 3, py + 1.5 + row * 0.07] as const),
              0.15,
              0.75,
            ),
            taper(0.8 + row * 0.05),
          ),
        );
      if (roll() > 0.76)
        foam.push(
          stroke(
            part(
              line.map(([px, py]) => [px + 1, py - 1.5] as const),
              0.1,
              0.6,
            ),
            taper(0.9 + row * 0.06),
          ),
        );
      x += long + 3 + roll() * (14 + row * 2);
    }
  }
  art.bare(...joined(light));
  art.paint('key', ...dark);
  art.paint('white', ...foam);

  art.group('moonlight');
  for (let row = 0; row < 13; row++) {
    const y = HORIZON + 1.6 + row * 2.9;
    const half = MOON.r * (0.94 - row * 0.05) * (row % 2 ? 0.8 : 1);
    const pieces = 2 + (row % 3);
    for (let k = 0; k < pieces; k++) {
      const x0 = MOON.x - half + (2 * half * (k + 0.1 * roll())) / pieces;
      const x1 = x0 + ((2 * half) / pieces) * (0.62 + roll() * 0.3);
      const line = through([
        [x0, y],
        [(x0 * 2 + x1) / 3, y + 0.7],
        [(x0 + 2 * x1) / 3, y - 0.5],
        [x1, y + 0.2],
      ]);
      art.paint(row % 4 === 2 && k % 2 ? 'coral' : 'yellow', stroke(line, taper(2.3, 0.7)));
    }
  }
}

/** The near swell, in front of the posts: a row of breaking crests, then dark water with a scale pattern. */
export function drawSwell(art: Canvas): void {
  const roll = dice(23);
  art.group('swell');
  const w = 58;
  for (let x = -40; x < 850; x += w * 0.93) {
    const size = 0.86 + 0.3 * roll();
    const c = crest(x, 198, w, 13 * size);
    const body = joined([
      c.body,
      [
        [x - w * 0.2, 196],
        [x + w * 1.2, 196],
        [x + w * 1.2, 204],
        [x - w * 0.2, 204],
      ],
    ]);
    art.paint('green', ...body);
    art.paint(
      'key',
      stroke(c.body, (t) => 0.6 + 1.1 * Math.sin(Math.PI * t)),
    );
    art.paint('key', ...within(c.lines, body));
    art.paint('white', c.foam);
    art.paint(
      'key',
      stroke([...c.foam, c.foam[0] as Pt], () => 0.7),
    );
    const drops = [0, 1, 2].map((k) =>
      arc(x - 1 - k * 2.6 + roll(), 197 - 15 * size * (0.9 - k * 0.2) - roll() * 3, 0.9 - k * 0.14),
    );
    art.paint('white', ...drops);
  }
  art.group('near-water');
  const top = through(
    Array.from({ length: 31 }, (_, i) => [-8 + i * 29, 198.5 + (i % 2 ? 1.6 : -1.6)] as const),
  );
  art.paint('key', [...top, [862, 220], [-8, 220]]);
  art.paint(
    'white',
    stroke(
      top.map(([x, y]) => [x, y - 0.2] as const),
      even(1.1),
    ),
  );
  for (let row = 0; row < 3; row++)
    for (let x = -8 + (row % 2) * 9; x < 856; x += 18) {
      const y = 208 + row * 5.2;
      const scale = arc(x, y, 9, 8, 0, 360);
      art.paint('key', scale);
      for (let k = 0; k < 3; k++) {
        const r = 7.8 - k * 2.7;
        art.paint(
          k === 1 ? 'white' : 'green',
          stroke(arc(x, y, r, r * 0.88, 180, 360), even(k === 1 ? 0.8 : 1.3)),
        );
      }
    }
}
