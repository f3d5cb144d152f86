import { useMemo } from 'react';
import { type Deck, type Face, kickCurve, makeSurface } from '../../core/deck/index.ts';
import { formatLength, useStudio } from '../state/index.ts';
import { Dimension, type Place, pathOf } from './drawing.tsx';
import './sections.css';

const say = (units: 'mm' | 'in') => (mm: number) => formatLength(mm, units);

/** Heights of the section across are drawn this many times over: a concave is shallow. */
const TALLER = 3;

/** The section across the deck at mid-wheelbase, top face up, a straightedge laid over the rails as one measures it. */
export function ConcaveSection({ deck, face }: { deck: Deck; face: Face }) {
  const units = useStudio((s) => s.job?.units ?? 'mm');
  const half = deck.width / 2;
  const faces = useMemo(() => {
    const across = (side: Face, lift: number) => {
      const surface = makeSurface(deck, side);
      return Array.from({ length: 81 }, (_, i): Place => {
        const y = -half + (i / 80) * deck.width;
        const p = surface.toSpace(surface.toSurface({ x: 0, y }));
        return [p.y, -(p.z + lift) * TALLER];
      });
    };
    return { top: across('top', 0), bottom: across('bottom', -deck.thickness) };
  }, [deck, half]);
  const high = Math.min(...faces.top.map((p) => p[1]));
  const low = deck.thickness * TALLER;
  const size = 11;
  const body = `${pathOf(faces.top)}${pathOf([...faces.bottom].reverse()).replace('M', 'L')}Z`;
  const x0 = -half - 14;
  return (
    <svg
      className="drawing"
      viewBox={`${x0} ${high - 26} ${deck.width + 28} ${low - high + 58}`}
      role="img"
      aria-label={`Section across the deck, heights drawn ${TALLER} times over: ${say(units)(deck.concave.depth)} deep, ${say(units)(deck.width)} wide. Lay a straightedge over the rails and measure the gap at the centre.`}
    >
      <path d={body} className="wood" />
      <path d={pathOf(faces[face])} className="shown-face" />
      <rect x={-half - 8} y={high - 9} width={deck.width + 16} height={9} className="rule" />
      <text x={0} y={high - 14} textAnchor="middle" fontSize={size} className="soft">
        straightedge
      </text>
      {deck.concave.depth > 0 && (
        <Dimension from={[0, high]} to={[0, 0]} text={say(units)(deck.concave.depth)} size={size} />
      )}
      <Dimension
        from={[-half, low + 14]}
        to={[half, low + 14]}
        text={say(units)(deck.width)}
        size={size}
        side={0.5}
      />
      <path className="help-line" d={`M${-half} ${high}V${low + 17}M${half} ${high}V${low + 17}`} />
    </svg>
  );
}

/** The section along the centreline, true to scale, with the whole length straight and along the board. */
export function LongSection({ deck, face }: { deck: Deck; face: Face }) {
  const faces = useMemo(() => {
    const tail = -deck.wheelbase / 2 - deck.holes.along - deck.tailLength;
    const nose = deck.wheelbase / 2 + deck.holes.along + deck.noseLength;
    const along = (side: Face, lift: number) => {
      const surface = makeSurface(deck, side);
      // The wood's end is cut square to it: both faces end at the same plan place only near enough to be drawn.
      return Array.from({ length: 181 }, (_, i): Place => {
        const x = tail + (i / 180) * (nose - tail);
        const p = surface.toSpace(surface.toSurface({ x, y: 0 }));
        return [p.x, -(p.z + lift)];
      });
    };
    return { top: along('top', 0), bottom: along('bottom', -deck.thickness) };
  }, [deck]);
  const xs = faces.top.map((p) => p[0]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const high = Math.min(...faces.top.map((p) => p[1]));
  const low = deck.thickness;
  const size = 30;
  const inner = deck.wheelbase / 2;
  const outer = inner + deck.holes.along;
  return (
    <svg
      className="drawing"
      viewBox={`${x0 - 24} ${high - 12} ${x1 - x0 + 48} ${low - high + 66}`}
      role="img"
      aria-label="Section along the deck's centreline, true to scale"
    >
      <path
        d={`${pathOf(faces.top)}${pathOf([...faces.bottom].reverse()).replace('M', 'L')}Z`}
        className="wood"
      />
      <path d={pathOf(faces[face])} className="shown-face" />
      <path
        className="hole-line"
        d={[-outer, -inner, inner, outer].map((x) => `M${x} -14V${low + 14}`).join('')}
      />
      <text x={x0} y={low + 46} fontSize={size} className="soft">
        tail
      </text>
      <text x={x1} y={low + 46} textAnchor="end" fontSize={size} className="soft">
        nose
      </text>
    </svg>
  );
}

/** One kick from the side with what is measured on it: where it begins to bend, how tightly, and how far it rises. */
export function KickDrawing({ deck, face, end }: { deck: Deck; face: Face; end: 'nose' | 'tail' }) {
  const units = useStudio((s) => s.job?.units ?? 'mm');
  const kick = deck[end];
  const side = end === 'nose' ? 1 : -1;
  const outer = deck.wheelbase / 2 + deck.holes.along;
  const start = kickCurve(deck, 'top', end).start;
  const tip = outer + deck[`${end}Length`];
  const faces = useMemo(() => {
    const along = (of: Face, lift: number) => {
      const surface = makeSurface(deck, of);
      return Array.from({ length: 91 }, (_, i): Place => {
        const x = side * (outer - 22 + (i / 90) * (tip - outer + 22));
        const p = surface.toSpace(surface.toSurface({ x, y: 0 }));
        return [p.x, -(p.z + lift)];
      });
    };
    return { top: along('top', 0), bottom: along('bottom', -deck.thickness) };
  }, [deck, outer, side, tip]);
  const turn = (kick.angleDeg * Math.PI) / 180;
  // Where the undersides of flat and ramp would meet: the angle is seen there, clear of the wood.
  const low = deck.thickness;
  const corner = start + (kick.radius + low) * Math.tan(turn / 2);
  const arm = Math.max(40, tip - corner) * 0.92;
  const size = 17;
  // Room for the higher of the two, so that both ends stand side by side at one scale.
  const rise = (e: 'nose' | 'tail') =>
    (deck[`${e}Length`] - deck[e].start) * Math.tan((deck[e].angleDeg * Math.PI) / 180);
  const high = -Math.max(50, rise('nose'), rise('tail'));
  const x = (along: number) => side * along;
  const span = Math.max(deck.noseLength, deck.tailLength) + 40;
  const left = side > 0 ? outer - 26 : -outer + 26 - span;
  const to: Place = [x(corner + arm * Math.cos(turn)), low - arm * Math.sin(turn)];
  return (
    <svg
      className="drawing"
      viewBox={`${left} ${high - 10} ${span} ${low - high + 62}`}
      role="img"
      aria-label={`The ${end} from the side: bends ${say(units)(kick.start)} past the outer holes, radius ${say(units)(kick.radius)}, rises ${kick.angleDeg}°`}
    >
      <path
        d={`${pathOf(faces.top)}${pathOf([...faces.bottom].reverse()).replace('M', 'L')}Z`}
        className="wood"
      />
      <path d={pathOf(faces[face])} className="shown-face" />
      <path className="hole-line" d={`M${x(outer)} -16V${deck.thickness + 30}`} />
      <path className="help-line" d={`M${x(start)} -2V${deck.thickness + 30}`} />
      {kick.angleDeg > 0 && (
        <>
          <path className="help-line" d={`M${x(start)} ${low}H${x(corner + arm + 10)}`} />
          <path
            className="measure-line"
            d={`M${x(corner + arm)} ${low}A${arm} ${arm} 0 0 ${side > 0 ? 0 : 1} ${to[0].toFixed(2)} ${to[1].toFixed(2)}`}
          />
          <text x={x(corner + arm - 5)} y={low - 5} textAnchor={side > 0 ? 'end' : 'start'} fontSize={size}>
            {kick.angleDeg}°
          </text>
          <text
            x={x(start + (kick.radius * turn) / 2 - 12)}
            y={-28}
            textAnchor="middle"
            fontSize={size}
            className="soft"
          >
            R {say(units)(kick.radius)}
          </text>
        </>
      )}
      <Dimension
        from={[x(outer), deck.thickness + 24]}
        to={[x(start), deck.thickness + 24]}
        text={say(units)(kick.start)}
        size={size}
        side={0.45}
      />
    </svg>
  );
}
