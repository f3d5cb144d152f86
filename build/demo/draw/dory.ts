import { type Canvas, within } from './canvas.ts';
import { contour, even, flick, type Pt, type Ring, stroke, taper, through } from './curve.ts';

const line = (...points: Pt[]): Pt[] => through(points);

export function dory(art: Canvas): void {
  art.group('dory');
  const hull = [
    ...through([
      [744, 160],
      [756, 164.5],
      [776, 165.6],
      [796, 161],
      [806, 154],
    ]),
    ...through([
      [806, 154],
      [800, 168],
      [788, 175],
      [764, 176],
      [750, 172],
      [744, 160],
    ]),
  ];
  const inside = [
    ...through([
      [744, 160],
      [756, 164.5],
      [776, 165.6],
      [796, 161],
      [806, 154],
    ]),
    ...through([
      [806, 154],
      [790, 157.6],
      [770, 159.4],
      [744, 160],
    ]),
  ];
  art.paint('key', inside);
  art.paint('coral', hull);
  const strake = [
    ...through([
      [744, 160],
      [756, 164.5],
      [776, 165.6],
      [796, 161],
      [806, 154],
    ]),
    ...through([
      [805, 158],
      [796, 164.8],
      [776, 169.4],
      [756, 168],
      [745.4, 163.6],
    ]),
  ];
  art.paint('white', strake);
  const planks = [0, 1].map((k) =>
    stroke(
      line(
        [748 + k * 2, 168.6 + k * 2.6],
        [764, 172 + k * 1.8],
        [782, 171.6 + k * 1.6],
        [801 - k * 5, 163.5 + k * 5],
      ),
      taper(0.9),
    ),
  );
  const shade: Ring[] = [];
  for (let x = 778; x < 806; x += 1.9)
    shade.push(stroke(line([x, 169 - (x - 778) * 0.3], [x - 2, 173], [x - 4, 177]), flick(1, 0.5)));
  art.paint(
    'key',
    ...within([...planks, ...shade], [hull]),
    contour(strake, 0.9),
    contour(hull, 1.3),
    stroke(
      [
        [768, 160],
        [770, 166],
      ],
      even(1.6),
    ),
    stroke(
      [
        [784, 158.6],
        [787, 164],
      ],
      even(1.6),
    ),
  );
  art.paint('key', stroke(line([762, 150], [776, 160], [792, 172]), even(1.2)));
  art.paint(
    'yellow',
    stroke(
      [
        [788, 169],
        [794, 174],
      ],
      even(2.6),
    ),
  );
  art.paint('white', stroke(line([742, 174], [756, 178.6], [784, 178.4], [804, 171]), taper(2)));
  art.paint('key', stroke(line([738, 176], [756, 181.4], [786, 181], [808, 173]), taper(1.2)));
}
