import { outlineRing } from '../../core/deck/index.ts';
import type { RegisterCorrection } from '../../core/press/index.ts';
import { jigOf } from '../../core/runOf.ts';
import { useStudio } from '../state/index.ts';

/** mm an arrow's longest move is drawn as. */
const LONGEST = 90;

/** The deck in its frame with an arrow at each clamp, and what is left at each mark; arrows not to scale. */
export function ClampPicture({ correction }: { correction: RegisterCorrection }) {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { frameLength, frameWidth, frameBar } = jigOf(job);
  const [w, h] = [frameLength + 2 * frameBar + 60, frameWidth + 2 * frameBar + 240];
  const ring = outlineRing(job.deck, face, 1);
  const most = Math.max(0.02, ...correction.clamps.map((c) => Math.hypot(c.along, c.across)));
  const worst = Math.max(0.1, ...correction.marks.map((m) => m.left));
  return (
    <svg
      className="drawn"
      viewBox={`${-w / 2} ${-h / 2} ${w} ${h}`}
      role="img"
      aria-label={correction.clamps.map((c) => c.words).join('. ')}
    >
      <defs>
        <marker
          id="clamp-head"
          viewBox="0 0 10 10"
          refX="8"
          refY="5"
          markerWidth="5"
          markerHeight="5"
          orient="auto-start-reverse"
        >
          <path d="M0 0 L10 5 L0 10 Z" fill="var(--accent)" />
        </marker>
      </defs>
      <g transform="scale(1 -1)">
        <path
          d={`M${ring.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join(' L')} Z`}
          fill="var(--wood)"
          stroke="var(--ply-dark)"
          strokeWidth={2}
        />
        <rect
          x={-frameLength / 2}
          y={-frameWidth / 2}
          width={frameLength}
          height={frameWidth}
          fill="none"
          stroke="var(--ink-soft)"
          strokeWidth={frameBar}
          opacity={0.35}
        />
        {correction.marks.map((m) => (
          <circle
            key={`${m.x} ${m.y}`}
            cx={m.x}
            cy={m.y}
            r={6 + (m.left / worst) * 14}
            fill="none"
            stroke="var(--focus)"
            strokeWidth={3}
          />
        ))}
        {correction.clamps.map((c) => {
          const k = LONGEST / most;
          return (
            <g key={`${c.x} ${c.y}`}>
              <rect x={c.x - 22} y={c.y - 14} width={44} height={28} fill="var(--ink)" rx={4} />
              {Math.hypot(c.along, c.across) >= 0.03 && (
                <line
                  x1={c.x}
                  y1={c.y}
                  x2={c.x + c.along * k}
                  y2={c.y + c.across * k}
                  stroke="var(--accent)"
                  strokeWidth={9}
                  markerEnd="url(#clamp-head)"
                />
              )}
            </g>
          );
        })}
      </g>
      {correction.clamps.map((c) => (
        <text
          key={`${c.x}`}
          x={c.x}
          y={-c.y + 78 * Math.sign(-c.y || 1)}
          fontSize={26}
          textAnchor="middle"
          fill="var(--ink)"
          fontWeight={650}
        >
          {`${c.along >= 0 ? 'nose' : 'tail'} ${Math.abs(c.along).toFixed(2)} · ${c.across >= 0 ? 'away' : 'toward'} ${Math.abs(c.across).toFixed(2)} mm`}
        </text>
      ))}
      <text x={w / 2 - 20} y={8} fontSize={24} textAnchor="end" fill="var(--ink-soft)">
        nose
      </text>
      <text x={-w / 2 + 20} y={8} fontSize={24} fill="var(--ink-soft)">
        tail
      </text>
      <text x={0} y={h / 2 - 10} fontSize={24} textAnchor="middle" fill="var(--ink-soft)">
        you stand here; rings show what is left at each mark
      </text>
    </svg>
  );
}
