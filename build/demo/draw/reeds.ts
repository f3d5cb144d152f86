import type { Canvas } from './canvas.ts';
import { arc, contour, dice, even, flick, type Pt, placed, stroke, through } from './curve.ts';

const line = (...points: Pt[]): Pt[] => through(points);

function reeds(art: Canvas, x: number, foot: number, count: number, tall: number, seed: number): void {
  const roll = dice(seed);
  for (let k = 0; k < count; k++) {
    const bx = x + (k - count / 2) * 2.6 + roll() * 2;
    const lean = (k - count / 2) * 1.6 + (roll() - 0.3) * 9;
    const h = tall * (0.6 + roll() * 0.45);
    const spine = line([bx, foot], [bx + lean * 0.25, foot - h * 0.5], [bx + lean, foot - h]);
    if (k % 3 === 1) {
      art.paint('key', stroke(spine, flick(1.5, 0.9)));
      const head = placed(
        arc(0, 0, 1.9, 6.2),
        bx + lean * 0.82,
        foot - h * 0.88,
        1,
        1,
        (Math.atan2(lean * 0.7, h * 0.5) * 180) / Math.PI,
      );
      art.paint('coral', head);
      art.paint(
        'key',
        contour(head, 0.9),
        stroke(
          [
            [bx + lean, foot - h],
            [bx + lean * 1.12, foot - h - 5],
          ],
          even(0.7),
        ),
      );
    } else {
      art.paint(
        'key',
        stroke(spine, (t) => Math.max(0.6, 4.2 * (1 - t) ** 0.7)),
      );
      art.paint(
        'green',
        stroke(spine.slice(0, Math.floor(spine.length * 0.78)), (t) => Math.max(0.5, 2.6 * (1 - t) ** 0.7)),
      );
    }
  }
}

export function drawReeds(art: Canvas): void {
  art.group('reeds');
  reeds(art, 300, 203, 12, 50, 31);
  reeds(art, 516, 204, 9, 42, 33);
  reeds(art, 700, 204, 8, 36, 35);
  reeds(art, 222, 204, 7, 40, 37);
}
