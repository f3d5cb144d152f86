import type { Drawing, Layer } from './drawing.ts';

const COLOURS: Readonly<Record<Layer, string>> = {
  cut: '#c0392b',
  drill: '#1f5fa8',
  mark: '#222222',
  frame: '#7a7a7a',
  text: '#222222',
};

const n = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};
const escaped = (words: string): string =>
  [...words]
    .map((c) => (c === '&' ? '&amp;' : c === '<' ? '&lt;' : c === '>' ? '&gt;' : c < ' ' ? ' ' : c))
    .join('');

/** The drawing as SVG 1.1 at 1:1: size in mm, one user unit a mm, one group a layer, y turned down. */
export function drawingSvg({ title, box, items }: Drawing): string {
  const x = (v: number) => n(v - box.x);
  const y = (v: number) => n(box.y + box.height - v);
  const groups = new Map<Layer, string[]>();
  for (const item of items) {
    const group = groups.get(item.layer) ?? [];
    groups.set(item.layer, group);
    if (item.kind === 'path') {
      const d = item.points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${x(px)} ${y(py)}`).join(' ');
      group.push(`<path d="${d}${item.closed ? ' Z' : ''}"${item.dashed ? ' stroke-dasharray="4 2"' : ''}/>`);
    } else if (item.kind === 'circle')
      group.push(`<circle cx="${x(item.x)}" cy="${y(item.y)}" r="${n(item.radius)}"/>`);
    else
      group.push(
        `<text x="${x(item.x)}" y="${y(item.y)}" font-size="${n(item.height / 0.72)}"${item.middle ? ' text-anchor="middle"' : ''}>${escaped(item.text)}</text>`,
      );
  }
  const drawn = [...groups].map(([layer, list]) => {
    const style =
      layer === 'text'
        ? `fill="${COLOURS.text}" stroke="none" font-family="sans-serif"`
        : `fill="none" stroke="${COLOURS[layer]}" stroke-width="0.25"`;
    return `<g id="${layer}" ${style}>\n${list.join('\n')}\n</g>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${n(box.width)}mm" height="${n(box.height)}mm" viewBox="0 0 ${n(box.width)} ${n(box.height)}">
<title>${escaped(title)}</title>
${drawn.join('\n')}
</svg>
`;
}
