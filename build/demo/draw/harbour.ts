import { type Canvas, joined, within } from './canvas.ts';
import { arc, contour, dice, even, flick, mix, type Pt, type Ring, stroke, taper, through } from './curve.ts';
import { dory } from './dory.ts';
import { lighthouse } from './lighthouse.ts';
import { rope } from './rope.ts';
import { sheds } from './sheds.ts';

const line = (...points: Pt[]): Pt[] => through(points);

/** A pile driven into the water: bare wood with a drawn grain, standing on (x, foot), its top at `top`. */
export function pile(art: Canvas, x: number, top: number, foot: number, w: number, seed: number): void {
  const roll = dice(seed);
  const shape = through(
    [
      [x - w * 0.5, top + w * 0.12],
      [x - w * 0.47, mix(top, foot, 0.5)],
      [x - w * 0.56, foot],
      [x - w * 0.56, foot],
      [x + w * 0.58, foot],
      [x + w * 0.58, foot],
      [x + w * 0.49, mix(top, foot, 0.45)],
      [x + w * 0.5, top + w * 0.12],
      [x, top - w * 0.02],
    ],
    true,
  );
  const cap = arc(x, top + w * 0.1, w * 0.52, w * 0.17);
  art.bare(...joined([shape, cap]));
  const grain: Ring[] = [];
  const lines = Math.max(3, Math.round(w / 3.1));
  for (let k = 0; k < lines; k++) {
    const gx = x - w * 0.38 + (w * 0.84 * k) / lines;
    const a = mix(top + w * 0.3, foot, roll() * 0.3);
    const b = mix(a, foot, 0.4 + roll() * 0.55);
    grain.push(
      stroke(
        through([
          [gx, a],
          [gx + roll() * 1.4 - 0.4, mix(a, b, 0.5)],
          [gx - 0.3 + roll(), b],
        ]),
        taper(0.6 + roll() * 0.6),
      ),
    );
  }
  // The shadow side, in close strokes.
  for (let y = top + w * 0.4; y < foot - 1; y += 1.9)
    grain.push(
      stroke(
        line([x + w * 0.5, y], [x + w * 0.33, y + 0.8], [x + w * (0.12 + roll() * 0.14), y + 0.3]),
        flick(1, 0.5),
      ),
    );
  art.paint(
    'key',
    ...within(grain, [shape]),
    contour(shape, 1.1),
    stroke(arc(x, top + w * 0.1, w * 0.5, w * 0.16, 10, 170), even(0.7)),
  );
  if (w > 9) art.paint('key', stroke(arc(x, top + w * 0.08, w * 0.24, w * 0.07, 0, 330), even(0.5)));
  // Weed and the ring of foam at the water.
  art.paint('white', stroke(arc(x, foot, w * 0.85, w * 0.2, 0, 180), taper(1.7)));
  art.paint('key', stroke(arc(x, foot + 1.6, w * 1.1, w * 0.24, 12, 168), taper(1)));
}

export function drawHarbour(art: Canvas): void {
  lighthouse(art);
  sheds(art);
  dory(art);
  art.group('mooring-posts');
  pile(art, 250, 158, 200, 11, 21);
  pile(art, 336, 162, 200, 11, 22);
  pile(art, 548, 161, 200, 11, 23);
  pile(art, 440, 166, 204, 31, 24);
  art.group('rope');
  rope(line([176, 160], [212, 173], [250, 166]), art);
  rope(line([250, 166], [292, 178], [336, 169]), art);
  rope(line([336, 169], [380, 181], [425, 173]), art);
  rope(line([456, 173], [500, 182], [548, 168]), art);
  rope(line([548, 168], [560, 163], [570, 152]), art);
  rope(line([736, 151], [741, 160], [747, 162]), art, 1.6);
  rope(
    through([
      [424.6, 174],
      [440, 178],
      [456, 174],
    ]),
    art,
    2.6,
  );
  rope(
    through([
      [424.4, 177.6],
      [440, 181.8],
      [456.4, 177.6],
    ]),
    art,
    2.6,
  );
}
