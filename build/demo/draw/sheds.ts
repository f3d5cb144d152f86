import { type Canvas, within } from './canvas.ts';
import { arc, contour, dice, even, mix, type Pt, type Ring, stroke, taper, through } from './curve.ts';

const poly = (...points: Pt[]): Ring => points;
const line = (...points: Pt[]): Pt[] => through(points);

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

export function sheds(art: Canvas): void {
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
