import { type Canvas, joined, within } from './canvas.ts';
import {
  arc,
  contour,
  dice,
  even,
  flick,
  mix,
  type Pt,
  placed,
  type Ring,
  stroke,
  taper,
  through,
} from './curve.ts';
import { LAMP, rope } from './sky.ts';

const poly = (...points: Pt[]): Ring => points;
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

function lighthouse(art: Canvas): void {
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

function shed(
  art: Canvas,
  o: {
    x: number;
    w: number;
    eave: number;
    ridge: number;
    wall: 'coral' | 'white' | 'green';
    roof: 'coral' | 'green' | 'key';
    seed: number;
    deep: number;
  },
): void {
  const { x, w, eave, ridge } = o;
  const floor = 149;
  const roll = dice(o.seed);
  const mid = x + w / 2;
  // The long roof and wall running back to the right, then the gable over them.
  const side = poly([x + w, eave], [x + w + o.deep, eave - 2], [x + w + o.deep, floor - 1.5], [x + w, floor]);
  const slope = poly(
    [mid, ridge],
    [mid + o.deep, ridge - 1.5],
    [x + w + o.deep + 3, eave - 0.5],
    [x + w + 3, eave + 2.4],
  );
  const gable = poly([x, floor], [x, eave], [mid, ridge + 1], [x + w, eave], [x + w, floor]);
  art.paint(o.wall, side);
  const dark: Ring[] = [];
  for (let k = x + w + 1.2; k < x + w + o.deep; k += 1.5)
    dark.push(
      stroke(
        [
          [k, eave - 2],
          [k + 0.1, floor],
        ],
        even(0.75),
      ),
    );
  art.paint('key', ...within(dark, [side]), contour(side, 1));
  art.paint(o.wall, gable);
  const planks: Ring[] = [];
  for (let k = x + 3; k < x + w - 1; k += 3.4) {
    const reach = eave - (1 - Math.abs((k - mid) / (w / 2))) * (eave - ridge) + 2.5;
    const from = mix(reach, floor, roll() * 0.14);
    planks.push(
      stroke(
        line([k, from], [k + 0.3, mix(from, floor, 0.5)], [k, mix(from, floor, 0.8 + roll() * 0.2)]),
        taper(0.7),
      ),
    );
  }
  art.paint('key', ...planks, contour(gable, 1.1));
  art.paint(o.roof, slope);
  const tiles: Ring[] = [];
  for (let k = 1; k < 5; k++) {
    const t = k / 5;
    tiles.push(
      stroke(
        line(
          [mix(mid, x + w + 3, t), mix(ridge, eave + 2.4, t)],
          [mix(mid, x + w + 3, t) + o.deep * 0.55, mix(ridge, eave + 2.4, t) - 0.9],
          [mix(mid, x + w + 3, t) + o.deep, mix(ridge, eave + 2.4, t) - 1.8],
        ),
        taper(0.9),
      ),
    );
  }
  if (o.roof !== 'key') art.paint('key', ...tiles, contour(slope, 1.2));
  const board = (a: Pt, b: Pt) => stroke([a, [mix(a[0], b[0], 0.5), mix(a[1], b[1], 0.5)], b], even(3.6));
  const eaves = [board([mid, ridge], [x - 3, eave + 2.8]), board([mid, ridge], [x + w + 3, eave + 2.8])];
  art.paint(
    'key',
    ...eaves.map((_, i) =>
      stroke(
        i
          ? [
              [mid, ridge],
              [x + w + 3.2, eave + 3],
            ]
          : [
              [mid, ridge],
              [x - 3.2, eave + 3],
            ],
        even(4.8),
      ),
    ),
  );
  art.paint(o.roof === 'key' ? 'white' : o.roof, ...eaves);
}

const lit = (art: Canvas, x: number, y: number, w: number, h: number): void => {
  art.paint(
    'key',
    poly([x - 1.2, y - 1.2], [x + w + 1.2, y - 1.2], [x + w + 1.2, y + h + 1.2], [x - 1.2, y + h + 1.2]),
  );
  art.paint('yellow', poly([x, y], [x + w, y], [x + w, y + h], [x, y + h]));
  art.paint(
    'key',
    stroke(
      [
        [x + w / 2, y],
        [x + w / 2, y + h],
      ],
      even(0.9),
    ),
    stroke(
      [
        [x, y + h / 2],
        [x + w, y + h / 2],
      ],
      even(0.9),
    ),
  );
};

function sheds(art: Canvas): void {
  art.group('boat-sheds');
  for (const x of [578, 600, 626, 650, 676, 702, 724]) {
    art.paint(
      'key',
      stroke(
        [
          [x, 150],
          [x + 0.6, 172],
        ],
        even(3),
      ),
    );
    art.paint('white', stroke(arc(x + 0.6, 172, 4, 1.2, 0, 180), taper(1.1)));
  }
  art.paint(
    'key',
    stroke(
      [
        [578, 153],
        [600, 168],
      ],
      even(1),
    ),
    stroke(
      [
        [626, 153],
        [650, 168],
      ],
      even(1),
    ),
    stroke(
      [
        [676, 168],
        [702, 153],
      ],
      even(1),
    ),
  );
  shed(art, { x: 668, w: 38, eave: 112, ridge: 90, wall: 'green', roof: 'coral', seed: 3, deep: 18 });
  shed(art, { x: 576, w: 36, eave: 114, ridge: 94, wall: 'coral', roof: 'green', seed: 4, deep: 14 });
  shed(art, { x: 617, w: 46, eave: 102, ridge: 73, wall: 'white', roof: 'coral', seed: 5, deep: 12 });
  lit(art, 635.5, 90, 9, 8.4);
  // Doors: a boat door with braces, a plain one, one open on the light.
  const boatDoor = poly([627, 115], [653, 115], [653, 149], [627, 149]);
  art.paint('key', contour(boatDoor, 1.6), boatDoor);
  art.paint(
    'green',
    poly([628.4, 116.4], [639.3, 116.4], [639.3, 149], [628.4, 149]),
    poly([640.7, 116.4], [651.6, 116.4], [651.6, 149], [640.7, 149]),
  );
  for (const x of [628.4, 640.7]) {
    art.paint(
      'key',
      stroke(
        [
          [x, 147.5],
          [x + 10.9, 118],
        ],
        even(1.1),
      ),
      stroke(
        [
          [x, 126],
          [x + 10.9, 126],
        ],
        even(1.1),
      ),
      stroke(
        [
          [x, 140],
          [x + 10.9, 140],
        ],
        even(1.1),
      ),
    );
  }
  lit(art, 583, 120, 7.6, 8);
  art.paint('key', poly([596, 122], [606, 122], [606, 149], [596, 149]));
  art.paint('yellow', poly([597.2, 123.2], [604.8, 123.2], [604.8, 149], [597.2, 149]));
  art.paint('white', poly([599, 149], [597.2, 149], [601, 125], [604.8, 123.2]));
  lit(art, 675, 118, 8, 8);
  art.paint('key', poly([689, 122], [700, 122], [700, 149], [689, 149]));
  art.paint('white', poly([690.2, 123.2], [698.8, 123.2], [698.8, 149], [690.2, 149]));
  art.paint(
    'key',
    stroke(
      [
        [690.2, 147],
        [698.8, 125],
      ],
      even(1),
    ),
    stroke(
      [
        [690.2, 134],
        [698.8, 134],
      ],
      even(1),
    ),
  );
  // The staging the sheds stand on.
  const stage = through(
    [
      [568, 148.6],
      [568, 148.6],
      [650, 148.2],
      [736, 148.6],
      [736, 148.6],
      [737, 153],
      [650, 153.4],
      [567, 153],
    ],
    true,
  );
  art.bare(stage);
  art.paint('key', contour(stage, 1.2));
  for (let x = 573; x < 735; x += 7.3)
    art.paint(
      'key',
      stroke(
        [
          [x, 148.6],
          [x + 0.5, 153],
        ],
        even(0.7),
      ),
    );
  // Hoist, and floats hung to dry.
  art.paint(
    'key',
    stroke(
      [
        [640, 76],
        [640, 84],
      ],
      even(0.9),
    ),
  );
  for (const [x, y] of [
    [658, 122],
    [660.4, 127.4],
    [657, 132],
  ] as Pt[]) {
    art.paint('coral', arc(x, y, 2.7));
    art.paint('key', contour(arc(x, y, 2.7), 0.9), stroke(arc(x, y, 1.5, 1.5, 200, 300), even(0.5)));
  }
}

function dory(art: Canvas): void {
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

export function drawReeds(art: Canvas): void {
  art.group('reeds');
  reeds(art, 300, 203, 12, 50, 31);
  reeds(art, 516, 204, 9, 42, 33);
  reeds(art, 700, 204, 8, 36, 35);
  reeds(art, 222, 204, 7, 40, 37);
}
