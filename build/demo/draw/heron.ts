import { type Canvas, joined, within } from './canvas.ts';
import {
  arc,
  contour,
  even,
  flick,
  mix,
  type Pt,
  part,
  placed,
  type Ring,
  stroke,
  taper,
  through,
} from './curve.ts';

/** The bird stands on the middle post, facing the nose; its head keeps clear of every truck hole. */
export function drawHeron(art: Canvas): void {
  art.group('heron-legs');
  for (const [hip, knee, foot] of [
    [
      [446, 128],
      [453, 148],
      [446, 166.5],
    ],
    [
      [430, 134],
      [434, 151],
      [431, 167.5],
    ],
  ] as [Pt, Pt, Pt][]) {
    const leg = through([hip, knee, foot]);
    art.paint('key', stroke(leg, even(4.4)), arc(knee[0], knee[1], 3));
    art.paint('coral', stroke(leg, even(2.6)), arc(knee[0], knee[1], 1.9));
    for (const [dx, dy] of [
      [11, 2.6],
      [7, 4.6],
      [-6, 2.2],
    ] as Pt[]) {
      const toe = through([foot, [foot[0] + dx * 0.6, foot[1] - 0.6], [foot[0] + dx, foot[1] + dy]]);
      art.paint('key', stroke(toe, flick(4, 1.8)));
      art.paint('coral', stroke(toe, flick(2.3, 0.6)));
    }
  }

  art.shift(0, -7);
  art.group('heron-body');
  const silhouette = through(
    [
      [510, 49],
      [500, 41],
      [486, 36.5],
      [472, 38],
      [461, 45],
      [454, 56],
      [449, 66],
      [439, 76],
      [424, 86],
      [408, 99],
      [393, 116],
      [381, 134],
      [372, 150],
      [365, 163],
      [365, 163],
      [378, 160],
      [394, 152],
      [410, 148],
      [428, 147],
      [446, 143],
      [461, 134],
      [472, 121],
      [479, 107],
      [483, 94],
      [489, 84],
      [496, 77],
      [505, 70],
      [512, 64],
    ],
    true,
  );
  art.paint('white', silhouette);

  // Breast and neck: soft strokes that follow the form.
  const down: Ring[] = [];
  for (let k = 0; k < 12; k++) {
    const t = k / 12;
    const [x, y] = [mix(489, 440, t), mix(86, 145, t ** 0.9)];
    down.push(
      stroke(
        through([
          [x, y],
          [x - 5, y - 3 + t * 2],
          [x - 9 + t * 3, y - 8 - t * 2],
        ]),
        flick(1.3),
      ),
    );
    if (k > 3)
      down.push(
        stroke(
          through([
            [x - 7, y - 1],
            [x - 11, y - 5],
            [x - 14, y - 11],
          ]),
          taper(0.8),
        ),
      );
  }
  art.paint('key', ...within(down, [silhouette]));

  // Mantle: the dark back.
  const mantle = through(
    [
      [456, 53],
      [449, 66],
      [439, 76],
      [424, 86],
      [408, 99],
      [396, 112],
      [396, 112],
      [410, 110],
      [428, 104],
      [446, 96],
      [458, 88],
      [464, 78],
      [463, 66],
      [460, 57],
    ],
    true,
  );
  art.paint('key', ...within([mantle], [silhouette]));

  art.group('heron-wing');
  const wing = through(
    [
      [462, 84],
      [468, 96],
      [466, 110],
      [456, 123],
      [440, 132],
      [420, 138],
      [400, 147],
      [382, 157],
      [362, 168],
      [362, 168],
      [368, 154],
      [380, 135],
      [394, 116],
      [412, 102],
      [430, 94],
      [447, 88],
    ],
    true,
  );
  art.paint('green', wing);
  // Feathers lie over one another from the tail up to the shoulder.
  const feather = (x: number, y: number, long: number, wide: number, deg: number, shaft: boolean): void => {
    const shape = placed(
      through(
        [
          [0, 0],
          [-0.3, 0.5],
          [-0.74, 0.5],
          [-1, 0.06],
          [-1, -0.06],
          [-0.74, -0.5],
          [-0.3, -0.5],
        ],
        true,
        0.04,
      ),
      x,
      y,
      long,
      wide,
      deg,
    );
    const inside = within([shape], [wing]);
    art.paint('green', ...inside);
    art.paint('key', ...within([contour(shape, 1, 0.6)], [wing]));
    if (shaft)
      art.paint(
        'white',
        ...within(
          [
            stroke(
              placed(
                [
                  [-0.42, 0.06],
                  [-0.6, 0.07],
                  [-0.84, 0.02],
                ],
                x,
                y,
                long,
                wide,
                deg,
              ),
              taper(0.95),
            ),
          ],
          [wing],
        ),
      );
  };
  const spine = through([
    [466, 86],
    [452, 104],
    [434, 117],
    [406, 135],
    [364, 166],
  ]);
  const rows = [
    [0.66, 46, 9, 4, 17],
    [0.52, 44, 8.4, 5, 19],
    [0.42, 20, 7.6, 6, 20],
    [0.32, 16, 7, 6, 20],
    [0.225, 13, 6.4, 6, 18],
    [0.14, 11, 5.6, 5, 15],
    [0.065, 9, 4.6, 3, 9],
  ] as const;
  for (const [u, long, wide, n, half] of rows) {
    const [p, q] = part(spine, u, u + 0.05) as [Pt, ...Pt[]];
    const ahead = part(spine, u, u + 0.05).at(-1) ?? (q as Pt);
    const deg = (Math.atan2(ahead[1] - p[1], ahead[0] - p[0]) * 180) / Math.PI - 180;
    const a = ((deg + 90) * Math.PI) / 180;
    for (let k = n; k >= 0; k--) {
      const v = (k / n) * 2 - 1;
      feather(p[0] - Math.cos(a) * v * half, p[1] - Math.sin(a) * v * half, long, wide, deg + v * 7, true);
    }
  }
  art.paint('key', contour(wing, 1.5, 0.7));
  const silhouetteAndWing = joined([silhouette, wing]);
  // The mantle's ragged lower edge over the wing.
  for (let k = 0; k < 9; k++) {
    const t = k / 8;
    const [x, y] = [mix(398, 462, t), mix(111, 82, t)];
    art.paint(
      'key',
      ...within(
        [
          stroke(
            through([
              [x, y - 3],
              [x - 2, y + 2],
              [x - 6, y + 6 + 2 * Math.sin(k)],
            ]),
            flick(4.2, 0.6),
          ),
        ],
        silhouetteAndWing,
      ),
    );
  }
  const gleam: Ring[] = [];
  for (let k = 0; k < 7; k++) {
    const t = k / 6;
    gleam.push(
      stroke(
        through([
          [mix(410, 455, t), mix(101, 66, t)],
          [mix(416, 458, t), mix(100, 71, t)],
          [mix(419, 459, t), mix(102, 77, t)],
        ]),
        taper(1),
      ),
    );
  }
  art.paint('green', ...gleam);
  art.paint('key', contour(silhouette, 1.4, 0.8));

  art.group('heron-head');
  const cap = through(
    [
      [512, 56],
      [506, 46],
      [497, 40],
      [486, 36],
      [472, 37.4],
      [460, 45],
      [453, 57],
      [452, 66],
      [452, 66],
      [459, 60],
      [468, 55],
      [478, 52.5],
      [490, 54.5],
      [500, 58],
    ],
    true,
  );
  art.paint('key', cap);
  const bill = [
    ...through([
      [505, 50],
      [518, 52.4],
      [538, 61],
      [562, 77],
    ]),
    ...through([
      [562, 77],
      [540, 72.4],
      [518, 67.6],
      [506, 66],
    ]),
  ];
  art.paint(
    'key',
    bill,
    stroke(
      through([
        [520, 60],
        [540, 67],
        [563.4, 78],
      ]),
      flick(7, 0.6),
    ),
  );
  art.paint('coral', [
    ...through([
      [510, 62.6],
      [528, 65.6],
      [552, 74],
    ]),
    ...through([
      [552, 74],
      [532, 69.6],
      [516, 66.4],
      [509, 65.2],
    ]),
  ]);
  art.paint(
    'white',
    stroke(
      through([
        [513, 54.6],
        [525, 57.8],
        [540, 65],
      ]),
      taper(1),
    ),
  );
  // Lore and cheek.
  art.paint('green', [
    ...through([
      [496, 58.6],
      [503, 57],
      [509, 60],
      [507, 65],
    ]),
    ...through([
      [507, 65],
      [500, 65.6],
      [494, 63],
    ]),
  ]);
  art.paint(
    'key',
    stroke(
      through([
        [484, 66],
        [492, 69],
        [500, 68.6],
        [508, 66.4],
      ]),
      taper(1),
    ),
    stroke(
      through([
        [478, 64],
        [474, 72],
        [472, 80],
      ]),
      taper(0.9),
    ),
    stroke(
      through([
        [483, 70],
        [479, 77],
        [477, 84],
      ]),
      taper(0.9),
    ),
  );
  art.paint('key', arc(491, 57.4, 6.2));
  art.paint('coral', arc(491, 57.4, 4.7));
  art.paint('key', arc(491.8, 57.4, 2.5));
  art.paint('white', arc(490.2, 55.8, 1.1));
  art.paint(
    'green',
    stroke(
      through([
        [464, 46],
        [473, 41],
        [484, 40],
      ]),
      taper(1.2),
    ),
    stroke(
      through([
        [462, 51],
        [468, 47],
        [476, 44.6],
      ]),
      taper(0.9),
    ),
  );

  art.group('heron-plumes');
  for (const [a, b, c, d, w] of [
    [[458, 50], [440, 46], [420, 54], [392, 50], 3.4],
    [[456, 54], [438, 54], [418, 65], [394, 67], 3],
  ] as [Pt, Pt, Pt, Pt, number][]) {
    const plume = through([a, b, c, d]);
    art.paint('key', stroke(plume, flick(w + 1.7, 1.7)));
    art.paint('white', stroke(plume, flick(w, 0.6)));
  }
  art.shift(0, 7);
}
