import type { ArtLayer } from '../../core/ports/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { LAYER_LIMITS, tooManyLayers } from './layerLimits.ts';
import type { SvgScan } from './svgScan.ts';

/** Elements that draw; others (definitions, styles, titles) every layer needs. */
const DRAWS = new Set([
  'g',
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
  'text',
  'image',
  'use',
  'svg',
  'switch',
  'a',
]);

/**
 * The layers of a drawing: each group that stands directly in it, by its label or id, and everything loose together. Every
 * layer is the whole drawing with the others kept from being drawn, so that what they define still serves. Fewer than two
 * layers: none, for then it is one picture.
 */
export function svgLayers(scan: SvgScan, name: string): Outcome<ArtLayer[]> {
  const { text, rootName, top } = scan;
  const prefix = rootName.includes(':') ? rootName.slice(0, rootName.indexOf(':') + 1) : '';
  const drawn = top.filter(
    (child) => child.name.startsWith(prefix) && DRAWS.has(child.name.slice(prefix.length)),
  );
  const groups = drawn.filter((child) => child.name === `${prefix}g`);
  const loose = drawn.filter((child) => child.name !== `${prefix}g`);
  const sets = [
    ...(loose.length > 0 ? [{ name: 'Loose shapes', hidden: false, own: new Set(loose) }] : []),
    ...groups.map((group, n) => ({
      name: (group.label || group.id || `Group ${n + 1}`).slice(0, 120),
      hidden: group.hidden,
      own: new Set([group]),
    })),
  ];
  if (sets.length < 2) return done([]);
  if (sets.length > LAYER_LIMITS.layers) return tooManyLayers(name);
  const layers = sets.map(({ name: layer, hidden, own }) => {
    let out = '';
    let at = 0;
    for (const child of drawn) {
      if (own.has(child)) continue;
      out += `${text.slice(at, child.start)}<${prefix}g display="none">${text.slice(child.start, child.end)}</${prefix}g>`;
      at = child.end;
    }
    return { name: layer, hidden, bytes: new TextEncoder().encode(out + text.slice(at)) };
  });
  return done(layers);
}
