import type { Canvas } from './canvas.ts';
import { even, type Pt, part, placed, type Ring, stroke, through } from './curve.ts';

/** A laid rope along `line`, `w` mm thick: yellow strands between night-blue edges. */
export const rope = (line: readonly Pt[], art: Canvas, w = 2.2): void => {
  art.paint('key', stroke(line, even(w + 1.1)));
  art.paint('yellow', stroke(line, even(w)));
  const n = Math.floor(line.length / 4);
  const twists: Ring[] = [];
  for (let i = 1; i < n; i++) {
    const t = i / n;
    const [a, b] = part(line, t, Math.min(1, t + 0.004)) as [Pt, Pt];
    const deg = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    twists.push(
      stroke(
        placed(
          through(
            [
              [-0.9, w * 0.52],
              [0.1, 0.1],
              [0.9, -w * 0.52],
            ],
            false,
            0.4,
          ),
          a[0],
          a[1],
          1,
          1,
          deg,
        ),
        even(0.5),
      ),
    );
  }
  art.paint('key', ...twists);
};
