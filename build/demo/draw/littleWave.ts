import { writeFileSync } from 'node:fs';
import { Canvas, cut, joined, within } from './canvas.ts';
import {
  arc,
  contour,
  dice,
  even,
  mix,
  type Pt,
  part,
  placed,
  type Ring,
  stroke,
  taper,
  through,
} from './curve.ts';
import { letters, measure } from './letters.ts';
import { star } from './sky.ts';

/** The top graphic: a curling wave in a ring of rope under a lighthouse. White and night blue; wood does the rest. */
const art = new Canvas(150, 120);
const [cx, cy, R] = [75, 62, 34];
const roll = dice(3);

art.group('ground');
const disc = arc(cx, cy, R + 1, R + 1, 0, 360, 0.4);
art.paint('key', disc);
// Light from the lamp, cut out of the night as wood.
const lamp: Pt = [75, 39];
const beams: Ring[] = [-158, -146, -34, -22, 172, 8].map((deg) => {
  const [a, b] = [((deg - 3.2) * Math.PI) / 180, ((deg + 3.2) * Math.PI) / 180];
  return [
    lamp,
    [lamp[0] + 70 * Math.cos(a), lamp[1] + 70 * Math.sin(a)],
    [lamp[0] + 70 * Math.cos(b), lamp[1] + 70 * Math.sin(b)],
  ];
});
art.bare(...within(beams, [arc(cx, cy, R - 2.2)]));
art.bare(
  star(56, 46, 2, 4, 0.28),
  star(94, 44.6, 2.3, 4, 0.28),
  star(62, 53.5, 1.3, 4, 0.3),
  star(101, 55, 1.6, 4, 0.3),
  star(49.6, 57, 1.4, 4, 0.3),
);

art.group('lighthouse');
const tower: Ring = [
  [71.6, 43.4],
  [78.4, 43.4],
  [80.4, 64],
  [69.6, 64],
];
art.paint('white', tower);
for (const [a, b] of [
  [0.18, 0.4],
  [0.62, 0.84],
] as const) {
  const at = (t: number, s: number): Pt => [75 + s * mix(3.4, 5.4, t), mix(43.4, 64, t)];
  art.paint(
    'key',
    ...within(
      [[at(a, -1.2), [75, at(a, 0)[1] + 0.9], at(a, 1.2), at(b, 1.2), [75, at(b, 0)[1] + 1], at(b, -1.2)]],
      [
        cut(
          [tower],
          [
            stroke(
              [
                [71.6, 43.4],
                [69.6, 64],
              ],
              even(0.9),
            ),
            stroke(
              [
                [78.4, 43.4],
                [80.4, 64],
              ],
              even(0.9),
            ),
          ],
        )[0] as Ring,
      ],
    ),
  );
}
art.paint('key', [
  [69, 41.2],
  [81, 41.2],
  [80, 44],
  [70, 44],
]);
art.paint(
  'white',
  [
    [69.6, 41.8],
    [80.4, 41.8],
    [80, 43.2],
    [70, 43.2],
  ],
  [
    [72, 36.4],
    [78, 36.4],
    [78.2, 41.2],
    [71.8, 41.2],
  ],
);
art.paint(
  'key',
  stroke(
    [
      [75, 36.4],
      [75, 41.2],
    ],
    even(0.6),
  ),
  stroke(
    [
      [73.4, 36.4],
      [73.2, 41.2],
    ],
    even(0.5),
  ),
  stroke(
    [
      [76.6, 36.4],
      [76.8, 41.2],
    ],
    even(0.5),
  ),
);
art.paint(
  'white',
  [
    ...through(
      [
        [70.6, 36.6],
        [72.4, 33.6],
        [75, 31.6],
        [77.6, 33.6],
        [79.4, 36.6],
      ],
      false,
      0.3,
    ),
    [75, 37.2],
  ],
  stroke(
    [
      [75, 32],
      [75, 29.6],
    ],
    even(0.8),
  ),
);

art.group('wave');
// The wave: rises from the right, throws its crest over to the left.
const body = through(
  [
    [40, 82],
    [47, 79.5],
    [54, 80.5],
    [60, 82.5],
    [66, 82],
    [71, 78.5],
    [73.4, 73],
    [72.6, 67.8],
    [69, 65],
    [64.6, 65.6],
    [62.4, 68.8],
    [62.4, 68.8],
    [61, 64],
    [63, 59],
    [68, 55.4],
    [75, 54],
    [83, 56],
    [90, 61],
    [97, 68],
    [103, 73],
    [110, 76],
    [112, 100],
    [40, 100],
  ],
  true,
  0.35,
);
const inDisc = within([body], [arc(cx, cy, R - 1.6)]);
art.bare(...joined([...inDisc]));
art.paint('white', ...inDisc);
const lines: Ring[] = [];
for (let k = 0; k < 9; k++) {
  const t = k / 8;
  lines.push(
    stroke(
      through(
        [
          [mix(75.5, 98, t ** 1.1), mix(57.6, 70.4, t ** 1.2)],
          [mix(77.6, 94, t), mix(66, 76, t)],
          [mix(75.8, 86, t), mix(76, 82.5, t)],
          [mix(66, 80, t), mix(84, 87, t)],
          ...(k % 3 === 0 ? [[mix(54, 70, t), mix(86.4, 90.5, t)] as const] : []),
        ],
        false,
        0.4,
      ),
      (s) => 0.55 + 1.15 * Math.sin(Math.PI * Math.min(1, s * 1.05)) * (1 - t * 0.35),
    ),
  );
}
art.paint('key', ...within(lines, inDisc));
// Foam: fingers along the lip.
const foam: Ring[] = [];
for (let k = 0; k < 13; k++) {
  const lip = through(
    [
      [61.6, 69.4],
      [61, 63.6],
      [64, 58.2],
      [70, 54.8],
      [77, 54],
      [84, 56.2],
      [90, 61],
    ],
    false,
    0.4,
  );
  const [p] = part(lip, Math.min(0.98, k / 12.5), 1) as [Pt, ...Pt[]];
  foam.push(arc(p[0], p[1], 2.5 - k * 0.09 + roll() * 0.5, 2.3 - k * 0.09 + roll() * 0.4, 0, 360, 0.3));
}
const crown = joined(foam);
art.paint('white', ...crown);
art.paint('key', ...crown.map((ring) => contour(ring, 0.8, 0.55)));
for (const [x, y, r] of [
  [56.6, 67, 1.1],
  [57.8, 61.6, 0.9],
  [53.6, 72, 0.8],
  [60.2, 55.4, 0.9],
  [64, 50.8, 0.7],
  [58.6, 73.4, 0.8],
] as const)
  art.paint('white', arc(x, y, r, r, 0, 360, 0.2));
art.paint('key', ...within([stroke(body, even(0.9))], [arc(cx, cy, R - 1.6)]));
const ripples = [
  [44, 84.4, 14],
  [47, 88, 20],
  [55, 91.4, 22],
  [88, 86, 16],
  [82, 89.6, 18],
  [92, 81.4, 12],
] as const;
art.paint(
  'key',
  ...within(
    ripples.map(([x, y, w]) =>
      stroke(
        through(
          [
            [x, y],
            [x + w * 0.3, y - 0.9],
            [x + w * 0.6, y + 0.3],
            [x + w, y - 0.4],
          ],
          false,
          0.4,
        ),
        taper(1),
      ),
    ),
    inDisc,
  ),
);

art.group('rope-ring');
const ring = arc(cx, cy, R + 2.6, R + 2.6, -90, 270, 0.4);
art.bare(stroke(ring, even(6.6)));
art.paint('key', stroke(ring, even(5.6)));
const strands = 60;
for (let k = 0; k < strands; k++) {
  const deg = (k * 360) / strands;
  const a = (deg * Math.PI) / 180;
  const strand = placed(
    through(
      [
        [-0.6, -1.95],
        [1.0, -1.3],
        [1.5, 0],
        [2.2, 1.3],
        [0.6, 1.95],
        [-1.0, 1.3],
        [-1.5, 0],
        [-2.2, -1.3],
      ],
      true,
      0.25,
    ),
    cx + (R + 2.6) * Math.cos(a),
    cy + (R + 2.6) * Math.sin(a),
    0.92,
    1,
    deg + 90,
  );
  art.paint('white', strand);
  art.paint(
    'key',
    stroke(
      placed(
        [
          [-0.9, -0.9],
          [0, 0.1],
          [0.9, 1],
        ],
        cx + (R + 2.6) * Math.cos(a),
        cy + (R + 2.6) * Math.sin(a),
        1,
        1,
        deg + 90,
      ),
      taper(0.55),
    ),
  );
}
// The whipping that closes the ring.
const knot = arc(cx, cy + R + 2.8, 5, 4.2, 0, 360, 0.3);
art.bare(contour(knot, 1.4));
art.paint('white', knot);
art.paint(
  'key',
  contour(knot, 1.2, 0.7),
  ...[-1, 0, 1].map((k) =>
    stroke(
      through(
        [
          [cx + k * 2.2 - 1.6, cy + R + 6],
          [cx + k * 2.2, cy + R + 2.6],
          [cx + k * 2.2 + 1.6, cy + R - 0.6],
        ],
        false,
        0.3,
      ),
      taper(0.9),
    ),
  ),
);

art.group('lettering');
/** Text along a circle about the ring's middle, above (`up`) or below, letters upright to the reader. */
const round = (
  text: string,
  radius: number,
  size: number,
  gap: number,
  up: boolean,
  weight: number,
): void => {
  const long = measure(text, gap) * size;
  const at = (x: number, y: number): Pt => {
    const s = x * size - long / 2;
    const r = up ? radius + size * (1 - y) : radius + size * y;
    const a = up ? -Math.PI / 2 + s / (radius + size / 2) : Math.PI / 2 - s / (radius + size / 2);
    return [cx + r * Math.cos(a), cy + r * Math.sin(a)];
  };
  const rings = letters(text, gap, at, () => weight);
  const outline = letters(text, gap, at, () => weight + 1.7);
  art.paint('key', ...outline);
  art.paint('white', ...rings);
};
round('TIDEWATER PRINT ROOM', R + 8.4, 8.6, 0.3, true, 1.65);
round('BREAKWATER JAM', R + 9.4, 8, 0.32, false, 1.6);
for (const side of [-1, 1]) {
  const x = cx + side * 52;
  art.paint('key', star(x, cy + 8, 4.4, 4, 0.34));
  art.paint('white', star(x, cy + 8, 2.7, 4, 0.34));
  // Little waves to either side.
  for (let k = 0; k < 3; k++) {
    const half = 11 - k * 2.6;
    const line = Array.from(
      { length: 61 },
      (_, i) =>
        [
          x + side * 6 + mix(-half, half, i / 60),
          cy + 17.5 + k * 3.4 - 1.1 * Math.abs(Math.cos(((i / 60 - 0.5) * half * Math.PI) / 5.2)),
        ] as const,
    );
    art.paint('key', stroke(line, taper(2.2, 1.3)));
    art.paint('white', stroke(line.slice(3, -3), taper(1, 0.5)));
  }
}
writeFileSync(new URL('../little-wave.svg', import.meta.url), art.toSvg('Little Wave'));
