import { type Canvas, cut, joined, within } from './canvas.ts';
import {
  arc,
  contour,
  dice,
  flick,
  type Pt,
  part,
  placed,
  type Ring,
  stroke,
  taper,
  through,
} from './curve.ts';
import { letters } from './letters.ts';

/** The lamp the beam leaves from, the moon, and the line where sky meets water. */
export const LAMP: Pt = [116, 50];
export const MOON = { x: 446, y: 92.5, r: 82 };
export const HORIZON = 150;

const wedge = (from: number, to: number, reach: number): Ring => {
  const a = (from * Math.PI) / 180;
  const b = (to * Math.PI) / 180;
  return [
    LAMP,
    [LAMP[0] + reach * Math.cos(a), LAMP[1] + reach * Math.sin(a)],
    [LAMP[0] + reach * Math.cos(b), LAMP[1] + reach * Math.sin(b)],
  ];
};

export function star(x: number, y: number, r: number, points = 4, waist = 0.24, turn = 0): Ring {
  return Array.from({ length: points * 2 }, (_, i) => {
    const a = ((i * 180) / points - 90 + turn) * (Math.PI / 180);
    const d = i % 2 ? r * waist : r;
    return [x + d * Math.cos(a), y + d * Math.sin(a)] as const;
  });
}

/** A long flat cloud: lobes along its top, a straight drawn-out foot. */
export function cloud(x: number, y: number, w: number, h: number, lobes: readonly number[]): Ring {
  const rings: Ring[] = [];
  const n = lobes.length;
  lobes.forEach((size, i) => {
    const cx = x + (w * (i + 0.5)) / n;
    const rx = (w / n) * 0.86 * (0.7 + size * 0.4);
    rings.push(
      arc(cx, y - h * 0.18, rx, h * size, 180, 360).concat([
        [cx + rx, y],
        [cx - rx, y],
      ]),
    );
  });
  rings.push(
    stroke(
      through([
        [x - w * 0.22, y + 0.2],
        [x + w * 0.4, y - h * 0.12],
        [x + w * 1.24, y],
      ]),
      taper(h * 0.34, 0.7),
    ),
  );
  rings.push([
    [x, y],
    [x + w, y],
    [x + w, y - h * 0.25],
    [x, y - h * 0.25],
  ]);
  return joined(rings)[0] as Ring;
}

export function drawSky(art: Canvas): void {
  const roll = dice(7);
  art.group('night');
  const edge: Pt[] = [[-4, 122]];
  for (let x = 20; x <= 850; x += 46) edge.push([x, 121 + 4 * Math.sin(x / 41) + 3 * Math.sin(x / 17)]);
  const night: Ring = [[-4, -4], [850, -4], ...through(edge).reverse()];
  art.paint('key', night);
  // The sky breaks up into drawn-out streaks toward the horizon; the wood between them is the last light.
  const streaks: Ring[] = [];
  for (let row = 0; row < 8; row++) {
    const y = 119 + row * 4;
    const w = 2.9 - row * 0.28;
    for (let x = -30 + roll() * 40; x < 850; ) {
      const long = 60 + roll() * 120 - row * 5;
      const lift = (roll() - 0.5) * 2;
      streaks.push(
        stroke(
          through([
            [x, y + lift],
            [x + long * 0.3, y - 0.6],
            [x + long * 0.7, y + 0.5],
            [x + long, y - lift],
          ]),
          taper(w),
        ),
      );
      x += long * (0.72 + row * 0.05) + roll() * 16;
    }
  }
  art.paint('key', ...streaks);

  // Rings of light about the moon, cut out of the night.
  const glow: Ring[] = [];
  for (let k = 0; k < 6; k++) {
    const r = MOON.r + 5 + k * 5 + k * k * 0.32;
    for (let a = roll() * 30; a < 360; ) {
      const span = Math.min(360 - a, 14 + roll() * 30);
      const low = Math.sin(((a + span / 2) * Math.PI) / 180) > -0.42;
      if (span > 5 && !low)
        glow.push(stroke(arc(MOON.x, MOON.y, r, r, a, a + span), taper(1.9 - k * 0.14, 0.55)));
      a += span + 3 + k * 2.4 + roll() * 8;
    }
  }
  // Wind, cut into the night in gusts of lines that keep their distance and run out one after another.
  for (const [x, y, long, count, lift, gapY] of [
    [168, 82, 74, 4, -3, 2.7],
    [214, 106, 66, 4, 3, 2.6],
    [252, 84, 62, 4, 4, 2.7],
    [34, 110, 44, 4, -3, 2.6],
    [560, 20, 90, 4, -3.5, 2.7],
    [640, 9, 110, 4, 3, 2.7],
    [700, 28, 90, 4, -3, 2.6],

    [150, 12, 80, 4, 3, 2.6],
    [256, 10, 60, 3, -2, 2.6],
  ] as const)
    for (let k = 0; k < count; k++) {
      const x0 = x + k * 6 + roll() * 9;
      const end = long * (0.62 + 0.38 * roll());
      const yy = y + k * gapY;
      const whole = through([
        [x0, yy],
        [x0 + end * 0.25, yy - lift * 0.7],
        [x0 + end * 0.5, yy],
        [x0 + end * 0.75, yy + lift * 0.7],
        [x0 + end, yy],
      ]);
      const split = 0.3 + roll() * 0.4;
      glow.push(
        stroke(part(whole, 0, split), taper(1.1, 0.55)),
        stroke(part(whole, split + 0.05, 1), taper(1.1, 0.55)),
      );
    }
  art.bare(
    ...within(joined(glow), [
      [
        [-4, -4],
        [850, -4],
        [850, 119],
        [-4, 119],
      ],
    ]),
  );

  art.group('beam');
  // Wide up to the moon, narrower past it. Wood shows along its edges, white only in its heart.
  const near: Ring = [
    [-4, -4],
    [MOON.x, -4],
    [MOON.x, 218],
    [-4, 218],
  ];
  const far: Ring = [
    [MOON.x, -4],
    [852, -4],
    [852, 218],
    [MOON.x, 218],
  ];
  const beam = (edges: readonly (readonly [number, number, Ring])[]): Ring[] =>
    joined(edges.flatMap(([from, to, side]) => within([wedge(from, to, 820)], [side])));
  art.bare(
    ...beam([
      [-6.9, 7.6, near],
      [-1.9, 6.3, far],
      [174, 193, near],
    ]),
  );
  const along = (deg: number, from: number, to: number, w: number): Ring => {
    const a = (deg * Math.PI) / 180;
    return stroke(
      [0, 0.17, 0.33, 0.5, 0.67, 0.83, 1].map((t) => {
        const d = from + (to - from) * t;
        return [LAMP[0] + d * Math.cos(a), LAMP[1] + d * Math.sin(a)] as const;
      }),
      taper(w),
    );
  };
  const rays: Ring[] = [];
  for (let k = 0; k < 12; k++) {
    const from = 70 + roll() * 120;
    rays.push(along(k % 2 ? -6.9 + roll() * 0.9 : 6.5 + roll() * 1.1, from, from + 60 + roll() * 90, 1.1));
  }
  for (let k = 0; k < 20; k++) {
    const from = 400 + roll() * 230;
    rays.push(along(k % 2 ? -2 + roll() * 1 : 5.1 + roll() * 1.3, from, from + 70 + roll() * 130, 1.5));
  }
  art.paint('key', ...rays);
  art.paint(
    'white',
    ...beam([
      [-5.4, 5.6, near],
      [-0.5, 4.5, far],
      [177.5, 189.5, near],
    ]),
  );
  // Past the moon the light frays: wood between its last rays, and sun yellow in its heart.
  const frayed: Ring[] = [];
  for (let k = 0; k < 22; k++) {
    const from = 440 + roll() * 130;
    frayed.push(
      along(
        -0.5 + (k % 2 ? roll() * 1.1 : 4.9 - roll() * 1.1),
        from,
        from + 90 + roll() * 190,
        1 + roll() * 1.4,
      ),
    );
  }
  art.bare(...joined(frayed));
  art.paint(
    'yellow',
    ...(
      [
        [-4.9, 44, 250, 1.2],
        [5, 48, 250, 1.2],
        [0.1, 440, 730, 2.4],
        [1.4, 470, 720, 2.8],
        [2.6, 450, 600, 1.8],
        [3.4, 500, 660, 1.4],
        [0.75, 580, 735, 1.2],
      ] as const
    ).map(([deg, from, to, w]) => along(deg, from, to, w)),
  );
  // Gulls crossing the light.
  const gulls: Ring[] = [];
  for (const [x, y, size, tilt] of [
    [574, 66, 9, -8],
    [594, 58, 6, 6],
    [718, 70, 10, -14],
    [742, 62, 6.5, 4],
    [702, 61, 5, -4],
  ] as const) {
    const left = placed(
      through(
        [
          [0, 0],
          [-0.35, -0.32],
          [-0.7, -0.3],
          [-1.1, 0.02],
        ],
        false,
        0.06,
      ),
      x,
      y,
      size,
      size,
      tilt,
    );
    const right = placed(
      through(
        [
          [0, 0],
          [0.3, -0.4],
          [0.66, -0.44],
          [1.12, -0.16],
        ],
        false,
        0.06,
      ),
      x,
      y,
      size,
      size,
      tilt,
    );
    gulls.push(
      stroke(left, flick(size * 0.24, 0.5)),
      stroke(right, flick(size * 0.24, 0.5)),
      placed(arc(0, 0, 0.36, 0.13, 0, 360, 0.04), x, y, size, size, tilt + 20),
    );
  }
  art.paint('key', ...gulls);

  art.group('lettering');
  // The name stands in the light and grows with it.
  const text = 'NIGHT HERON';
  const gap = 0.22;
  const share = Math.tan((5.4 * Math.PI) / 180) + Math.tan((5.6 * Math.PI) / 180);
  const spread = (x: number) => 73 * Math.exp(0.1415 * x);
  const height = (x: number) => spread(x) * share * 0.755;
  art.paint(
    'key',
    ...letters(
      text,
      gap,
      (x, y) => {
        const d = spread(x);
        const h = height(x);
        const middle = LAMP[1] + d * Math.tan((0.1 * Math.PI) / 180);
        return [LAMP[0] + d, middle - h / 2 + h * y];
      },
      (x) => height(x) * 0.2,
    ),
  );

  art.group('moon');
  const disc = arc(MOON.x, MOON.y, MOON.r);
  art.paint('yellow', disc);
  // Seas of the moon: coral pools with a white rim of light on the other side.
  const pools = joined([
    arc(408, 46, 15, 10),
    arc(421, 39, 12, 8),
    arc(397, 57, 8, 6),
    arc(387, 84, 9, 12),
    arc(392, 98, 7, 6),
    arc(506, 110, 10, 13),
    arc(498, 122, 8, 7),
    arc(470, 25, 8, 4.6),
    arc(479, 28, 5, 3.4),
    arc(486, 136, 6, 4),
    arc(424, 62, 4, 3),
    arc(513, 88, 3.4, 3),
  ]);
  art.paint('coral', ...within(pools, [disc]));
  art.paint(
    'key',
    ...(
      [
        [408, 46, 15, 10, 170, 265],
        [387, 84, 9, 12, 165, 275],
        [506, 110, 10, 13, 170, 275],
        [486, 136, 6, 4, 160, 280],
        [470, 25, 8, 4.6, 165, 270],
      ] as const
    ).map(([x, y, rx, ry, from, to]) => stroke(arc(x, y, rx, ry, from, to), taper(1.2))),
  );
  const hatch = [
    stroke(arc(MOON.x, MOON.y, MOON.r - 3.4, MOON.r - 3.4, 112, 216), taper(3.4)),
    stroke(arc(MOON.x, MOON.y, MOON.r - 8.4, MOON.r - 8.4, 128, 196), taper(1.7)),
  ];
  art.paint('coral', ...hatch);
  art.paint(
    'white',
    stroke(arc(MOON.x, MOON.y, MOON.r - 3, MOON.r - 3, -78, 4), taper(2.6)),
    stroke(arc(MOON.x, MOON.y, MOON.r - 7.5, MOON.r - 7.5, -60, -22), taper(1.3)),
  );
  art.paint('key', contour(disc, 1.1));

  art.group('stars');
  const stars: Ring[] = [];
  const gold: Ring[] = [];
  const nights: Ring[] = [];
  for (const [x, y, r, p, c] of [
    [46, 96, 4, 4, 0],
    [66, 74, 2.6, 4, 1],
    [86, 100, 2.2, 5, 0],
    [152, 104, 3.4, 4, 0],
    [204, 98, 2.2, 4, 1],
    [172, 26, 3, 4, 1],
    [214, 25, 2.2, 5, 0],
    [246, 100, 2.6, 4, 1],
    [338, 108, 3.6, 4, 0],
    [322, 92, 2.2, 5, 0],
    [324, 11, 2.8, 4, 0],
    [274, 112, 2, 4, 0],
    [622, 17, 3.4, 4, 0],
    [672, 27, 2.4, 5, 0],
    [742, 23, 3, 4, 1],
    [722, 14, 2.4, 5, 0],
    [562, 116, 3.2, 4, 0],
    [546, 104, 2, 4, 1],
    [88, 28, 2.2, 4, 0],
    [140, 32, 2, 5, 0],
    [548, 14, 2.4, 4, 1],
  ] as const) {
    nights.push(arc(x, y, r * 0.95));
    (c ? gold : stars).push(star(x, y, r, p, p === 5 ? 0.42 : 0.26, (x % 7) * 3));
  }
  // Night about each star first, so that no line of wind runs into it.
  art.paint('key', ...nights);
  art.bare(...stars);
  art.paint('yellow', ...gold);

  art.group('clouds');
  for (const [x, y, w, h, lobes, ink] of [
    [690, 128, 96, 13, [0.6, 0.95, 1.2, 0.8, 0.5], 'coral'],
    [540, 141, 74, 10, [0.6, 1, 0.7, 0.5], 'white'],
    [262, 138, 76, 11, [0.5, 0.9, 1.1, 0.6], 'coral'],
    [36, 133, 46, 10, [0.6, 1, 0.7], 'white'],
    [170, 131, 60, 9, [0.6, 1, 0.8, 0.5], 'white'],
  ] as const) {
    const shape = cloud(x, y, w, h, lobes);
    art.paint(ink, shape);
    art.paint('key', contour(shape, 0.8, 0.5));
    const inside = cut(
      within(
        [0.34, 0.6].map((s, i) =>
          stroke(
            through([
              [x + w * (0.1 + i * 0.24), y - h * 0.3 * (2 - i)],
              [x + w * 0.4, y - h * (0.55 - i * 0.2)],
              [x + w * (0.62 + i * 0.2), y - h * s * 0.5],
            ]),
            taper(0.8),
          ),
        ),
        [shape],
      ),
      [],
    );
    art.paint('key', ...inside);
  }
}
