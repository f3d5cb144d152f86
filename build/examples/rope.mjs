/** “Slack Water”: a mooring rope made fast to a cleat, its slack laid in a coil, drawn in one line ink. 820 × 210 mm, nose right. */
const [WIDTH, HEIGHT] = [820, 210];
const at = (x, y) => `${x.toFixed(2)} ${y.toFixed(2)}`;
const line = (points) => `M${points.map(([x, y]) => at(x, y)).join('L')}`;

/** The middle line of the rope: from the cleat in one slack curve to the coil, and round it five times to its end. */
function course() {
  const points = [];
  const [cx, cy, outer] = [300, 105, 84];
  const curve = [
    [648, 104],
    [560, 176],
    [430, cy - outer],
    [cx, cy - outer],
  ];
  for (let t = 0; t < 1; t += 0.005) {
    const u = 1 - t;
    const weights = [u ** 3, 3 * u * u * t, 3 * u * t * t, t ** 3];
    points.push([0, 1].map((axis) => weights.reduce((sum, w, k) => sum + w * curve[k][axis], 0)));
  }
  for (let turn = 0; turn <= 5 * 2 * Math.PI; turn += 0.03) {
    const r = outer - turn * 2.35;
    points.push([cx - r * Math.sin(turn), cy - r * Math.cos(turn)]);
  }
  return points;
}

/** Both sides of a rope of this width about `middle`, and the lay: short curved strokes across it. */
function rope(middle, width) {
  const sides = [[], []];
  const lay = [];
  let run = 0;
  for (let i = 1; i < middle.length; i++) {
    const [x0, y0] = middle[i - 1];
    const [x1, y1] = middle[i];
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length === 0) continue;
    const [nx, ny] = [-(y1 - y0) / length, (x1 - x0) / length];
    sides[0].push([x1 + (nx * width) / 2, y1 + (ny * width) / 2]);
    sides[1].push([x1 - (nx * width) / 2, y1 - (ny * width) / 2]);
    run += length;
    if (run < 4.4) continue;
    run = 0;
    const [tx, ty] = [(x1 - x0) / length, (y1 - y0) / length];
    const across = (side, along) => [
      x1 + (nx * width * side) / 2 + tx * along,
      y1 + (ny * width * side) / 2 + ty * along,
    ];
    const [a, b, c, d] = [across(-1, -3), across(-0.35, -2.6), across(0.35, 2.6), across(1, 3)];
    lay.push(`M${at(...a)}C${at(...b)} ${at(...c)} ${at(...d)}`);
  }
  return { sides, lay };
}

export function slackWater() {
  const { sides, lay } = rope(course(), 11);
  const cleat =
    'M640 84C676 78 700 66 716 66h24c16 0 40 12 76 18M640 108c36 6 60 18 76 18h24c16 0 40-12 76-18M640 84c-12 4-12 20 0 24M816 84c6 4 6 20 0 24M714 126l-10 30h50l-10-30M692 156h74v12h-74z';
  const buoy =
    'M84 62a44 44 0 1 1-.1 0zM42 92c26 12 58 12 84 0M42 120c26 12 58 12 84 0M84 62V44m-9 0a9 9 0 1 0 18 0a9 9 0 1 0-18 0';
  const planks = [14, 196].map((y) => `M14 ${y}H806`);
  const ripples = Array.from({ length: 7 }, (_, i) => {
    const [x, y] = [430 + i * 34, i % 2 ? 30 : 178];
    return `M${x} ${y}q14 -7 28 0t28 0`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}mm" height="${HEIGHT}mm" viewBox="0 0 ${WIDTH} ${HEIGHT}">
<g fill="none" stroke="#f2ead6" stroke-linecap="round" stroke-linejoin="round">
<path stroke-width="1.1" d="${sides.map(line).join('')}"/>
<path stroke-width="0.8" d="${lay.join('')}"/>
<path stroke-width="2.2" d="${cleat}${buoy}"/>
<path stroke-width="1.4" d="${[...planks, ...ripples].join('')}"/>
</g>
</svg>
`;
}
