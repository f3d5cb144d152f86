import { type Canvas, cut, joined, within } from './canvas.ts';
import { arc, contour, even, flick, mix, type Pt, type Ring, stroke, taper, through } from './curve.ts';

/** The bird stands on the middle post, facing the nose; its head keeps clear of every truck hole. */
export function drawHeron(art: Canvas): void {
  art.group('heron-legs');
  for (const [hip, knee, foot] of [[[446, 136], [452, 150], [446, 168]], [[430, 140], [433, 153], [431, 169]]] as [Pt, Pt, Pt][]) {
    const leg = through([hip, knee, foot]);
    art.paint('key', stroke(leg, even(4.4)), arc(knee[0], knee[1], 3));
    art.paint('coral', stroke(leg, even(2.6)), arc(knee[0], knee[1], 1.9));
    for (const [dx, dy] of [[11, 2.6], [7, 4.6], [-6, 2.2]] as Pt[]) {
      const toe = through([foot, [foot[0] + dx * 0.6, foot[1] - 0.6], [foot[0] + dx, foot[1] + dy]]);
      art.paint('key', stroke(toe, flick(4, 1.8)));
      art.paint('coral', stroke(toe, flick(2.3, 0.6)));
    }
  }

  art.group('heron-body');
  const silhouette = through([
    [510, 49], [500, 41], [486, 36.5], [472, 38], [461, 45], [454, 56], [449, 66], [439, 76], [424, 86], [408, 99], [393, 116], [381, 134], [372, 150], [365, 163],
    [365, 163], [378, 160], [394, 152], [410, 148], [428, 147], [446, 143], [461, 134], [472, 121], [479, 107], [483, 94], [489, 84], [496, 77], [505, 70], [512, 64],
  ], true);
  art.paint('white', silhouette);

  // Breast and neck: soft strokes that follow the form.
  const down: Ring[] = [];
  for (let k = 0; k < 13; k++) {
    const t = k / 12;
    const [x, y] = [mix(491, 440, t), mix(82, 145, t ** 0.9)];
    down.push(stroke(through([[x, y], [x - 5, y - 3 + t * 2], [x - 9 + t * 3, y - 8 - t * 2]]), flick(1.3)));
    if (k > 2) down.push(stroke(through([[x - 7, y - 1], [x - 11, y - 5], [x - 14, y - 11]]), taper(0.8)));
  }
  art.paint('key', ...within(down, [silhouette]));

  // Mantle: the dark back.
  const mantle = through([[456, 53], [449, 66], [439, 76], [424, 86], [408, 99], [396, 112], [396, 112], [410, 110], [428, 104], [446, 96], [458, 88], [464, 78], [463, 66], [460, 57]], true);
  art.paint('key', ...within([mantle], [silhouette]));

  art.group('heron-wing');
  const wing = through([
    [462, 84], [468, 96], [466, 110], [456, 123], [440, 132], [420, 138], [400, 147], [382, 157], [362, 168],
    [362, 168], [368, 154], [380, 135], [394, 116], [412, 102], [430, 94], [447, 88],
  ], true);
  art.paint('green', wing);
  // Long feathers along the lower edge.
  const quills: Ring[] = [];
  const shine: Ring[] = [];
  for (let k = 0; k < 7; k++) {
    const t = k / 6;
    const tip: Pt = [mix(366, 446, t), mix(165, 129, t ** 0.8)];
    const root: Pt = [mix(398, 462, t), mix(121, 104, t)];
    const bend: Pt = [mix(tip[0], root[0], 0.45) + 2.5, mix(tip[1], root[1], 0.45) + 5];
    quills.push(stroke(through([tip, bend, root]), (s) => 1.5 - 0.9 * s));
    if (k < 6) shine.push(stroke(through([[tip[0] + 7, tip[1] - 5], [bend[0] + 3.4, bend[1] - 3], [mix(bend[0], root[0], 0.55) + 3, mix(bend[1], root[1], 0.55) - 1.2]]), taper(1.3)));
  }
  art.paint('white', ...within(shine, [wing]));
  art.paint('key', ...within(quills, [wing]));
  // Coverts: rows of scallops that shrink toward the shoulder.
  for (let row = 0; row < 4; row++) {
    const n = 8 - row;
    for (let k = 0; k < n; k++) {
      const t = (k + (row % 2) * 0.5) / (8 - row);
      const x = mix(396 + row * 9, 456 + row * 1.5, t);
      const y = mix(132 - row * 8, 117 - row * 8.2, t) + 3 * Math.sin(t * 3);
      const size = 5.8 - row * 0.6;
      const scale = through([[x + size * 0.7, y - size * 0.6], [x + size * 0.3, y + size * 0.5], [x - size * 0.5, y + size * 0.7], [x - size * 0.9, y - size * 0.1]]);
      art.paint('key', ...within([stroke(scale, taper(1.25 - row * 0.1))], [wing]));
      if (row < 3) art.paint('white', ...within([stroke([[x - size * 0.1, y - size * 0.5], [x - size * 0.25, y + size * 0.1]], even(0.8))], [wing]));
    }
  }
  art.paint('key', contour(wing, 1.5, 0.7));
  // The mantle's ragged lower edge over the wing.
  for (let k = 0; k < 9; k++) {
    const t = k / 8;
    const [x, y] = [mix(398, 462, t), mix(111, 82, t)];
    art.paint('key', stroke(through([[x, y - 3], [x - 2, y + 2], [x - 6, y + 6 + 2 * Math.sin(k)]]), flick(4.2, 0.6)));
  }
  const gleam: Ring[] = [];
  for (let k = 0; k < 7; k++) {
    const t = k / 6;
    gleam.push(stroke(through([[mix(410, 455, t), mix(101, 66, t)], [mix(416, 458, t), mix(100, 71, t)], [mix(419, 459, t), mix(102, 77, t)]]), taper(1)));
  }
  art.paint('green', ...gleam);
  art.paint('key', contour(silhouette, 1.4, 0.8));

  art.group('heron-head');
  const cap = through([[512, 56], [506, 46], [497, 40], [486, 36], [472, 37.4], [460, 45], [453, 57], [452, 66], [452, 66], [459, 60], [468, 55], [478, 52.5], [490, 54.5], [500, 58]], true);
  art.paint('key', cap);
  const bill = [...through([[505, 51], [516, 53], [532, 60], [552, 73.5]]), ...through([[552, 73.5], [532, 70], [516, 67], [506, 66]])];
  art.paint('key', bill, contour(bill, 1.4, 0.8));
  art.paint('coral', [...through([[510, 62.4], [526, 65], [545, 71.4]]), ...through([[545, 71.4], [530, 68.8], [514, 66], [509, 65]])]);
  art.paint('white', stroke(through([[512, 55], [522, 57.6], [534, 63]]), taper(1)));
  // Lore and cheek.
  art.paint('green', [...through([[496, 58.6], [503, 57], [509, 60], [507, 65]]), ...through([[507, 65], [500, 65.6], [494, 63]])]);
  art.paint('key', stroke(through([[484, 66], [492, 69], [500, 68.6], [508, 66.4]]), taper(1)), stroke(through([[478, 64], [474, 72], [472, 80]]), taper(0.9)), stroke(through([[483, 70], [479, 77], [477, 84]]), taper(0.9)), stroke(through([[489, 73], [485, 79], [482, 86]]), taper(0.8)));
  art.paint('key', arc(491, 57.4, 6.2));
  art.paint('coral', arc(491, 57.4, 4.7));
  art.paint('key', arc(491.8, 57.4, 2.5));
  art.paint('white', arc(490.2, 55.8, 1.1));
  art.paint('green', stroke(through([[464, 46], [473, 41], [484, 40]]), taper(1.2)), stroke(through([[462, 51], [468, 47], [476, 44.6]]), taper(0.9)));

  art.group('heron-plumes');
  for (const [a, b, c, d, w] of [[[458, 50], [440, 46], [420, 54], [392, 50], 3.4], [[456, 54], [438, 54], [418, 65], [394, 67], 3]] as [Pt, Pt, Pt, Pt, number][]) {
    const plume = through([a, b, c, d]);
    art.paint('key', stroke(plume, flick(w + 1.7, 1.7)));
    art.paint('white', stroke(plume, flick(w, 0.6)));
  }
}
export { cut, joined };
