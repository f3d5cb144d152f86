import { useMemo } from 'react';
import { type Deck, type Face, makeSurface } from '../../core/deck/index.ts';

const line = (points: readonly (readonly [number, number])[]) =>
  points.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(2)} ${y.toFixed(2)}`).join('');

/** The section across the deck at mid-wheelbase, top face up, height drawn three times over. */
export function ConcaveSection({ deck }: { deck: Deck; face: Face }) {
  const section = useMemo(() => {
    const surface = makeSurface(deck, 'top');
    const half = deck.width / 2;
    return Array.from({ length: 61 }, (_, i) => {
      const y = -half + (i / 60) * deck.width;
      const p = surface.toSpace(surface.toSurface({ x: 0, y }));
      return [p.y as number, -(p.z as number) * 3] as const;
    });
  }, [deck]);
  const low = Math.max(...section.map((p) => p[1]));
  const high = Math.min(...section.map((p) => p[1]));
  const thick = deck.thickness * 3;
  const half = deck.width / 2;
  const body = `${line(section)}${line([...section].reverse().map(([x, y]) => [x, y + thick] as const)).replace('M', 'L')}Z`;
  return (
    <svg
      className="section"
      viewBox={`${-half - 12} ${high - 16} ${deck.width + 24} ${low - high + thick + 24}`}
      role="img"
      aria-label="Section across the deck, height drawn three times over"
    >
      <path d={body} className="deck-wood" />
      <path d={line(section)} className="section-edge" />
      <path d={`M${-half} ${high}H${half}`} className="section-guide" />
      <path d={`M0 ${high}V${low}`} className="section-measure" />
      <text x={5} y={(high + low) / 2 + 4} className="section-text section-small">
        depth
      </text>
    </svg>
  );
}

/** The section along the centreline, true to scale. */
export function KickSection({ deck }: { deck: Deck; face: Face }) {
  const section = useMemo(() => {
    const surface = makeSurface(deck, 'top');
    const tail = -deck.wheelbase / 2 - deck.holes.along - deck.tailLength;
    const nose = deck.wheelbase / 2 + deck.holes.along + deck.noseLength;
    return Array.from({ length: 161 }, (_, i) => {
      const x = tail + (i / 160) * (nose - tail);
      const p = surface.toSpace(surface.toSurface({ x, y: 0 }));
      return [p.x as number, -(p.z as number)] as const;
    });
  }, [deck]);
  const xs = section.map((p) => p[0]);
  const ys = section.map((p) => p[1]);
  const x0 = Math.min(...xs);
  const x1 = Math.max(...xs);
  const y0 = Math.min(...ys);
  const y1 = Math.max(...ys);
  return (
    <svg
      className="section"
      viewBox={`${x0 - 20} ${y0 - 16} ${x1 - x0 + 40} ${y1 - y0 + deck.thickness + 62}`}
      role="img"
      aria-label="Section along the deck's centreline"
    >
      <path d={line(section)} className="section-body" strokeWidth={deck.thickness} />
      {[-1, 1].map((end) => (
        <path
          key={end}
          className="section-hole"
          d={`M${(end * deck.wheelbase) / 2} ${y1 - 8}v30M${end * (deck.wheelbase / 2 + deck.holes.along)} ${y1 - 8}v30`}
        />
      ))}
      <text x={x0} y={y1 + deck.thickness + 38} className="section-text section-big">
        tail
      </text>
      <text x={x1} y={y1 + deck.thickness + 38} textAnchor="end" className="section-text section-big">
        nose
      </text>
    </svg>
  );
}
