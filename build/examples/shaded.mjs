/** Shaded pictures drawn with gradients, 820 × 210 mm, nose right. */
const [WIDTH, HEIGHT] = [820, 210];
const open = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}mm" height="${HEIGHT}mm" viewBox="0 0 ${WIDTH} ${HEIGHT}">`;
const stops = (...list) =>
  list
    .map(
      ([at, colour, opacity = 1]) =>
        `<stop offset="${at}" stop-color="${colour}" stop-opacity="${opacity}"/>`,
    )
    .join('');

/** A hill's outline as a sum of waves: the same each time. */
function hill(base, height, seed) {
  const points = [];
  for (let x = 0; x <= WIDTH; x += 5) {
    const y =
      base -
      height *
        (0.55 +
          0.3 * Math.sin(x / 71 + seed) +
          0.2 * Math.sin(x / 29 + seed * 2.3) +
          0.1 * Math.sin(x / 11 + seed * 5));
    points.push(`${x} ${y.toFixed(2)}`);
  }
  return `M0 ${HEIGHT}L${points.join('L')}L${WIDTH} ${HEIGHT}Z`;
}

/** “Fog Bank”: hills going into mist under a low moon, every edge soft: art for index dots. */
export function fogBank() {
  const hills = [
    [120, 46, 0.4, '#5d7f92'],
    [146, 44, 2.1, '#3f6277'],
    [176, 42, 4.2, '#23425a'],
  ];
  return `${open}
<defs>
<linearGradient id="sky" x1="0" y1="0" x2="0" y2="1">${stops([0, '#23425a'], [0.45, '#c98f7a'], [0.75, '#f0d9a8'], [1, '#f0d9a8'])}</linearGradient>
<radialGradient id="moon">${stops([0, '#fff3cf'], [0.32, '#ffe9b3'], [0.36, '#f0d9a8', 0.55], [1, '#f0d9a8', 0])}</radialGradient>
${hills.map(([, , , colour], i) => `<linearGradient id="h${i}" x1="0" y1="0" x2="0" y2="1">${stops([0, colour], [1, '#f0d9a8', 0.75])}</linearGradient>`).join('\n')}
</defs>
<rect width="${WIDTH}" height="${HEIGHT}" fill="url(#sky)"/>
<circle cx="560" cy="76" r="120" fill="url(#moon)"/>
${hills.map(([base, height, seed], i) => `<path d="${hill(base, height, seed)}" fill="url(#h${i})"/>`).join('\n')}
</svg>
`;
}

/** “Tide Table”: a sun and its path on the water in two inks' tones: art for halftones. */
export function tideTable() {
  const waves = Array.from({ length: 15 }, (_, i) => {
    const y = 112 + i * 6.6;
    const swing = 60 + i * 13;
    return `<rect x="${(410 - swing).toFixed(1)}" y="${y.toFixed(1)}" width="${(2 * swing).toFixed(1)}" height="${(2 + i * 0.18).toFixed(2)}" rx="1.5" fill="url(#glint)"/>`;
  });
  return `${open}
<defs>
<linearGradient id="sea" x1="0" y1="0" x2="0" y2="1">${stops([0, '#1d5c74', 0.25], [1, '#1d5c74'])}</linearGradient>
<linearGradient id="sky" x1="0" y1="0" x2="0" y2="1">${stops([0, '#1d5c74', 0.75], [1, '#1d5c74', 0])}</linearGradient>
<radialGradient id="sun" gradientTransform="translate(0 0)">${stops([0, '#e8613c'], [0.5, '#e8613c', 0.85], [1, '#e8613c', 0.12])}</radialGradient>
<linearGradient id="glint">${stops([0, '#e8613c', 0], [0.5, '#e8613c'], [1, '#e8613c', 0])}</linearGradient>
</defs>
<rect width="${WIDTH}" height="108" fill="url(#sky)"/>
<path d="M340 108a70 70 0 0 1 140 0z" fill="url(#sun)"/>
<rect y="108" width="${WIDTH}" height="${HEIGHT - 108}" fill="url(#sea)"/>
${waves.join('\n')}
</svg>
`;
}
