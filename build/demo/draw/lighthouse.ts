import { type Canvas, joined, within } from './canvas.ts';
import { arc, contour, dice, even, flick, mix, type Pt, type Ring, stroke, taper, through } from './curve.ts';
import { LAMP } from './sky.ts';

const poly = (...points: Pt[]): Ring => points;
const line = (...points: Pt[]): Pt[] => through(points);

export function lighthouse(art: Canvas): void {
  const [lx, ly] = LAMP;
  const roll = dice(5);
  art.group('lighthouse');
  // A heap of boulders, the far ones first.
  for (const [x, y, w, t] of [
    [86, 146, 15, 11],
    [146, 146, 15, 11],
    [104, 143, 17, 12],
    [128, 143, 17, 12],
    [68, 157, 17, 12],
    [164, 157, 17, 12],
    [92, 156, 19, 12],
    [140, 156, 19, 12],
    [116, 154, 20, 13],
    [48, 168, 17, 10],
    [186, 168, 18, 10],
    [76, 168, 20, 12],
    [160, 168, 20, 12],
    [104, 169, 20, 13],
    [132, 169, 20, 13],
  ] as const) {
    const ring: Pt[] = [];
    for (let k = 0; k < 7; k++) {
      const a = ((k * 360) / 7 + roll() * 22) * (Math.PI / 180);
      const d = 0.84 + roll() * 0.28;
      ring.push([x + w * d * Math.cos(a), y + t * d * Math.sin(a)]);
    }
    const stone = through(ring, true);
    art.bare(stone);
    const shade: Ring[] = [];
    for (let k = 0; k < 8; k++) {
      const t0 = k / 7;
      const sx = mix(x + w * 0.95, x - w * 0.25, t0);
      const sy = mix(y - t * 0.15, y + t * 0.98, t0);
      shade.push(
        stroke(
          line(
            [sx, sy],
            [sx - w * 0.13, sy - t * 0.26],
            [sx - w * (0.3 + roll() * 0.16), sy - t * (0.44 + roll() * 0.2)],
          ),
          flick(1.7, 0.5),
        ),
      );
    }
    shade.push(
      stroke(
        line([x - w * 0.6, y - t * 0.2], [x - w * 0.3, y - t * 0.45], [x - w * 0.02, y - t * 0.4]),
        taper(0.9),
      ),
    );
    art.paint('key', ...within(shade, [stone]), contour(stone, 1.5, 0.7));
  }
  const tower = poly([lx - 11.5, 66], [lx + 11.5, 66], [lx + 17.5, 138], [lx - 17.5, 138]);
  const base = through([
    [lx - 17.5, 138],
    [lx, 141.4],
    [lx + 17.5, 138],
  ]);
  const body = [...tower.slice(0, 3), ...base.slice().reverse(), tower[3] as Pt];
  art.paint('white', body);
  const at = (t: number, s: number): Pt => [lx + s * mix(11.5, 17.5, t), mix(66, 138, t)];
  for (const [a, b] of [
    [0.1, 0.3],
    [0.5, 0.7],
    [0.88, 1.06],
  ] as const) {
    const band = [
      ...through([at(a, -1), [lx, at(a, 0)[1] + 3], at(a, 1)]),
      ...through([at(b, 1), [lx, at(b, 0)[1] + 3.2], at(b, -1)]),
    ];
    art.paint('coral', ...within([band], [body]));
  }
  const shade: Ring[] = [];
  for (let y = 69; y < 141; y += 1.75) {
    const t = (y - 66) / 72;
    const half = mix(11.5, 17.5, t);
    shade.push(
      stroke(
        line(
          [lx + half, y],
          [lx + half * 0.72, y + 1.5],
          [lx + half * (0.3 + 0.16 * Math.sin(y * 1.7)), y + 2.1],
        ),
        flick(1.15, 0.5),
      ),
    );
  }
  art.paint('key', ...within(shade, [body]), contour(body, 1.2));
  for (const [t, s] of [
    [0.24, -0.2],
    [0.6, -0.25],
  ] as const) {
    const [wx, wy] = at(t, s);
    const window = [...arc(wx, wy, 2.6, 3, 180, 360), [wx + 2.6, wy + 5] as Pt, [wx - 2.6, wy + 5] as Pt];
    art.paint('key', window);
    art.paint('yellow', [
      ...arc(wx, wy + 0.3, 1.5, 1.9, 180, 360),
      [wx + 1.5, wy + 4] as Pt,
      [wx - 1.5, wy + 4] as Pt,
    ]);
  }
  const door = [...arc(lx - 4, 127, 4, 4.6, 180, 360), [lx, 139.6] as Pt, [lx - 8, 139] as Pt];
  art.paint('key', door);
  art.paint('green', [
    ...arc(lx - 4, 127.4, 2.8, 3.4, 180, 360),
    [lx - 1.2, 138.4] as Pt,
    [lx - 6.8, 138] as Pt,
  ]);
  // Gallery, lantern, roof.
  const gallery = through(
    [
      [lx - 16, 61.5],
      [lx - 16, 61.5],
      [lx + 16, 61.5],
      [lx + 16, 61.5],
      [lx + 15, 65],
      [lx + 10, 68],
      [lx, 68.6],
      [lx - 10, 68],
      [lx - 15, 65],
    ],
    true,
  );
  art.paint('key', gallery);
  art.paint('coral', stroke(line([lx - 13.5, 63.6], [lx, 64.8], [lx + 13, 63.6]), even(1.2)));
  const room = poly([lx - 9, 40], [lx + 9, 40], [lx + 10, 61.5], [lx - 10, 61.5]);
  art.paint('yellow', room);
  art.paint('white', arc(lx, ly + 0.5, 6, 7));
  art.paint('key', contour(room, 1.2));
  for (const s of [-0.42, 0.42])
    art.paint(
      'key',
      stroke(
        [
          [lx + s * 9, 40],
          [lx + s * 10, 61.5],
        ],
        even(0.8),
      ),
    );
  art.paint('coral', arc(lx, ly + 0.5, 2.6, 3.4));
  const rail: Ring[] = [];
  for (let k = -4; k <= 4; k++)
    rail.push(
      stroke(
        [
          [lx + k * 3.9, 56],
          [lx + k * 3.9, 62],
        ],
        even(0.6),
      ),
    );
  rail.push(
    stroke(
      [
        [lx - 16, 56],
        [lx + 16, 56],
      ],
      even(0.9),
    ),
  );
  art.paint('key', ...rail);
  const roof = [
    ...through([
      [lx - 12.5, 40.6],
      [lx - 8, 33],
      [lx, 27.5],
      [lx + 8, 33],
      [lx + 12.5, 40.6],
    ]),
    ...through([
      [lx + 12.5, 40.6],
      [lx, 42.4],
      [lx - 12.5, 40.6],
    ]),
  ];
  art.paint('coral', roof);
  art.paint(
    'key',
    contour(roof, 1.3),
    stroke(line([lx + 3, 30.4], [lx + 6.6, 35], [lx + 7.6, 41]), flick(1.7)),
    stroke(line([lx + 6.4, 32.6], [lx + 9.4, 37], [lx + 10, 40.6]), flick(1.7)),
    stroke(
      [
        [lx, 28],
        [lx, 19.5],
      ],
      even(1.1),
    ),
    arc(lx, 25.6, 2.1),
  );
  // Surf about the rock.
  const surf: Ring[] = [];
  for (let k = 0; k < 15; k++) {
    const x = 30 + k * 12;
    const y = 171 + 3 * Math.sin(k * 1.9);
    surf.push(arc(x, y, 7.5 + 2 * Math.sin(k * 2.3), 4.4));
  }
  const foam = joined(surf);
  art.paint('white', ...foam);
  art.paint('key', ...foam.map((r) => contour(r, 0.9)));
}
