import { type Canvas, cut, joined, within } from './canvas.ts';
import { arc, dice, even, type Pt, part, placed, type Ring, stroke, taper, through, contour } from './curve.ts';
import { letters } from './letters.ts';

/** The lamp the beam leaves from, the moon, and the line where sky meets water. */
export const LAMP: Pt = [116, 50];
export const MOON = { x: 446, y: 92, r: 79 };
export const HORIZON = 150;

const wedge = (from: number, to: number, reach: number): Ring => {
  const a = (from * Math.PI) / 180;
  const b = (to * Math.PI) / 180;
  return [LAMP, [LAMP[0] + reach * Math.cos(a), LAMP[1] + reach * Math.sin(a)], [LAMP[0] + reach * Math.cos(b), LAMP[1] + reach * Math.sin(b)]];
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
    const rx = ((w / n) * 0.86) * (0.7 + size * 0.4);
    rings.push(arc(cx, y - h * 0.18, rx, h * size, 180, 360).concat([[cx + rx, y], [cx - rx, y]]));
  });
  rings.push(stroke(through([[x - w * 0.22, y + 0.2], [x + w * 0.4, y - h * 0.12], [x + w * 1.24, y]]), taper(h * 0.34, 0.7)));
  rings.push([[x, y], [x + w, y], [x + w, y - h * 0.25], [x, y - h * 0.25]]);
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
    const y = 125 + row * 3.3;
    const w = 2.9 - row * 0.28;
    for (let x = -30 + roll() * 40; x < 850; ) {
      const long = 60 + roll() * 120 - row * 5;
      const lift = (roll() - 0.5) * 2;
      streaks.push(stroke(through([[x, y + lift], [x + long * 0.3, y - 0.6], [x + long * 0.7, y + 0.5], [x + long, y - lift]]), taper(w)));
      x += long * (0.72 + row * 0.05) + roll() * 16;
    }
  }
  art.paint('key', ...streaks);

  // Rings of light about the moon, cut out of the night.
  const glow: Ring[] = [];
  for (let k = 0; k < 9; k++) {
    const r = MOON.r + 5 + k * 5 + k * k * 0.32;
    for (let a = roll() * 30; a < 360; ) {
      const span = Math.min(360 - a, 14 + roll() * 30);
      if (span > 5) glow.push(stroke(arc(MOON.x, MOON.y, r, r, a, a + span), taper(1.9 - k * 0.14, 0.55)));
      a += span + 3 + k * 2.4 + roll() * 8;
    }
  }
  // Wind, cut into the far ends of the sky.
  for (let k = 0; k < 46; k++) {
    const right = k % 3 !== 0;
    const x = right ? 600 + roll() * 230 : 150 + roll() * 150;
    const y = right ? 8 + roll() * 104 : 74 + roll() * 40;
    const long = 16 + roll() * 46;
    const bend = (roll() - 0.3) * 5;
    if (Math.hypot(x + long / 2 - MOON.x, y - MOON.y) < 152) continue;
    glow.push(stroke(through([[x, y], [x + long * 0.35, y - bend], [x + long * 0.7, y - bend * 0.4], [x + long, y + bend * 0.6]]), taper(0.95, 0.5)));
  }
  art.bare(...joined(glow));

  art.group('beam');
  // Wood shows along the beam's edges, white only in its heart.
  art.bare(...joined([wedge(-10.4, 8.2, 800), wedge(176, 196, 160)]));
  const rays: Ring[] = [];
  for (let k = 0; k < 26; k++) {
    const upper = k % 2 === 0;
    const deg = upper ? -10.2 + roll() * 2.6 : 5.6 + roll() * 2.4;
    const from = 90 + roll() * 520;
    const to = from + 50 + roll() * 130;
    const a = (deg * Math.PI) / 180;
    rays.push(stroke([0, 0.25, 0.5, 0.75, 1].map((t) => [LAMP[0] + (from + (to - from) * t) * Math.cos(a), LAMP[1] + (from + (to - from) * t) * Math.sin(a)] as const), taper(1.1)));
  }
  art.paint('key', ...rays);
  art.paint('white', wedge(-7.4, 5.2, 800), wedge(179.5, 192.5, 130));
  const warm: Ring[] = [];
  for (const [deg, from, to, w] of [[-5.6, 40, 190, 1.4], [3.9, 44, 210, 1.4], [-6.4, 130, 420, 1.2], [4.5, 150, 470, 1.2], [-4.9, 470, 720, 2.4], [-1.4, 500, 740, 3], [2.4, 470, 735, 2.6], [0.6, 560, 700, 1.5], [-3.2, 560, 690, 1.6]] as const) {
    const a = (deg * Math.PI) / 180;
    warm.push(stroke([0, 0.2, 0.4, 0.6, 0.8, 1].map((t) => [LAMP[0] + (from + (to - from) * t) * Math.cos(a), LAMP[1] + (from + (to - from) * t) * Math.sin(a)] as const), taper(w)));
  }
  art.paint('yellow', ...warm);

  art.group('lettering');
  // The name stands in the light and grows with it.
  const text = 'NIGHT HERON';
  const [start, grow] = [56, 1.0112];
  const gap = 0.2;
  const spread = (x: number) => start + 27.0 * (Math.exp(0.2135 * x) - 1) * grow;
  const height = (x: number) => (spread(x) * (Math.tan((7.4 * Math.PI) / 180) + Math.tan((5.2 * Math.PI) / 180))) * 0.7;
  art.paint(
    'key',
    ...letters(text, gap, (x, y) => {
      const d = spread(x);
      const h = height(x);
      const middle = LAMP[1] + d * Math.tan((-1.1 * Math.PI) / 180);
      return [LAMP[0] + d, middle - h / 2 + h * y];
    }, (x) => height(x) * 0.235),
  );

  art.group('moon');
  const disc = arc(MOON.x, MOON.y, MOON.r);
  art.paint('yellow', disc);
  // Seas of the moon: coral pools with a white rim of light on the other side.
  const pools = [
    through([[404, 40], [418, 30], [432, 36], [428, 48], [412, 54], [400, 50]], true),
    through([[386, 76], [398, 70], [404, 82], [398, 96], [384, 96], [378, 86]], true),
    through([[500, 96], [512, 100], [514, 114], [502, 122], [490, 114], [490, 102]], true),
    arc(470, 26, 7, 5),
    arc(489, 134, 5, 4),
    arc(392, 112, 4, 3.4),
  ];
  art.paint('coral', ...within(pools, [disc]));
  const hatch: Ring[] = [];
  for (let k = 0; k < 16; k++) {
    const r = MOON.r - 2.6 - k * 0.15 - (k % 2) * 2.6;
    hatch.push(stroke(arc(MOON.x, MOON.y, r, r, 100 + k * 6.2, 103.4 + k * 6.2 + (k % 3)), taper(1.2)));
  }
  art.paint('coral', ...hatch);
  art.paint('white', stroke(arc(MOON.x, MOON.y, MOON.r - 3, MOON.r - 3, -78, 4), taper(2.6)), stroke(arc(MOON.x, MOON.y, MOON.r - 7.5, MOON.r - 7.5, -60, -22), taper(1.3)));
  art.paint('key', contour(disc, 1.1));

  art.group('stars');
  const stars: Ring[] = [];
  const gold: Ring[] = [];
  for (const [x, y, r, p, c] of [
    [40, 92, 4, 4, 0], [66, 70, 2.6, 4, 1], [84, 104, 2.2, 5, 0], [158, 98, 3.4, 4, 0], [206, 108, 2.2, 4, 1], [172, 22, 3, 4, 1],
    [214, 14, 2.2, 5, 0], [258, 92, 2.6, 4, 1], [286, 108, 3.6, 4, 0], [322, 98, 2.2, 5, 0], [330, 8.5, 2.4, 4, 0],
    [300, 118, 2, 4, 0], [590, 12, 2.8, 5, 0], [628, 144, 0, 4, 0], [742, 128, 2.4, 4, 1], [770, 118, 3.4, 4, 0], [800, 112, 2.2, 4, 1],
    [726, 112, 2.6, 5, 0], [86, 26, 2.2, 4, 0], [562, 106, 3.2, 4, 0], [574, 124, 2, 4, 1],
  ] as const)
    if (r) (c ? gold : stars).push(star(x, y, r, p, p === 5 ? 0.42 : 0.26, (x % 7) * 3));
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
      within([0.34, 0.6].map((s, i) => stroke(through([[x + w * (0.1 + i * 0.24), y - h * 0.3 * (2 - i)], [x + w * 0.4, y - h * (0.55 - i * 0.2)], [x + w * (0.62 + i * 0.2), y - h * s * 0.5]]), taper(0.8))), [shape]),
      [],
    );
    art.paint('key', ...inside);
  }
}
export const rope = (line: readonly Pt[], art: Canvas, w = 2.2): void => {
  art.paint('key', stroke(line, even(w + 1.1)));
  art.paint('yellow', stroke(line, even(w)));
  const n = Math.floor(line.length / 4);
  const twists: Ring[] = [];
  for (let i = 1; i < n; i++) {
    const t = i / n;
    const [a, b] = part(line, t, Math.min(1, t + 0.004)) as [Pt, Pt];
    const deg = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    twists.push(stroke(placed(through([[-0.9, w * 0.52], [0.1, 0.1], [0.9, -w * 0.52]], false, 0.4), a[0], a[1], 1, 1, deg), even(0.5)));
  }
  art.paint('key', ...twists);
};
