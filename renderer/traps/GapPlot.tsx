import type { RegisterCurve } from '../../core/trap/index.ts';
import { formatLength, type Units } from '../state/index.ts';

const W = 460;
const H = 220;
const LEFT = 62;
const BOTTOM = 38;
const TOP = 14;
const RIGHT = 16;

/** An area in mm², or in cm² from one up. */
export const areaWords = (mm2: number): string =>
  mm2 >= 100 ? `${Number((mm2 / 100).toFixed(1))} cm²` : `${Number(mm2.toFixed(mm2 < 10 ? 1 : 0))} mm²`;

/** A round step that gives about four lines up to `most`. */
function stepFor(most: number): number {
  const raw = Math.max(most, 1e-6) / 4;
  const ten = 10 ** Math.floor(Math.log10(raw));
  return ten * ([1, 2, 5, 10].find((k) => k * ten >= raw) ?? 10);
}

/** Area of gaps against trap width: half of the trials stay under the lower line, 95 of 100 under the upper one. */
export function GapPlot({
  curve,
  limit,
  now,
  units,
}: {
  readonly curve: RegisterCurve;
  /** mm². */
  readonly limit: number;
  /** The trap width of the face, mm. */
  readonly now: number;
  readonly units: Units;
}) {
  const { points, recommendedMm } = curve;
  const most = Math.max(limit * 1.3, ...points.map((p) => p.areaMm2.p95), 1);
  const widest = Math.max(...points.map((p) => p.widthMm as number), now, 0.1);
  const x = (mm: number) => LEFT + (mm / widest) * (W - LEFT - RIGHT);
  const y = (mm: number) => H - BOTTOM - (mm / most) * (H - BOTTOM - TOP);
  const line = (of: 'p50' | 'p95') =>
    points.map((p, i) => `${i === 0 ? 'M' : 'L'}${x(p.widthMm as number)} ${y(p.areaMm2[of])}`).join('');
  const rows = Array.from({ length: 6 }, (_, i) => i * stepFor(most)).filter((v) => v <= most);
  const words =
    recommendedMm === null
      ? 'No width tried keeps within the limit.'
      : `Recommended: ${formatLength(recommendedMm as number, units, 2)}.`;
  return (
    <figure className="gap-plot">
      <svg viewBox={`0 0 ${W} ${H}`} role="img" aria-label={`Area of gaps against trap width. ${words}`}>
        {rows.map((v) => (
          <g key={v}>
            <line className="gap-grid" x1={LEFT} x2={W - RIGHT} y1={y(v)} y2={y(v)} />
            <text x={LEFT - 6} y={y(v) + 4} textAnchor="end">
              {areaWords(v)}
            </text>
          </g>
        ))}
        <line className="gap-limit" x1={LEFT} x2={W - RIGHT} y1={y(limit)} y2={y(limit)} />
        <text className="gap-limit-word" x={W - RIGHT} y={y(limit) - 5} textAnchor="end">
          limit
        </text>
        <line className="gap-now" x1={x(now)} x2={x(now)} y1={TOP} y2={H - BOTTOM} />
        <path className="gap-p50" d={line('p50')} />
        <path className="gap-p95" d={line('p95')} />
        {points.map((p) => (
          <circle
            key={p.widthMm as number}
            className={p.widthMm === recommendedMm ? 'gap-best' : 'gap-dot'}
            cx={x(p.widthMm as number)}
            cy={y(p.areaMm2.p95)}
            r={p.widthMm === recommendedMm ? 7 : 3.2}
          />
        ))}
        {points.map((p, i) =>
          i % 2 === 0 ? (
            <text
              key={p.widthMm as number}
              x={x(p.widthMm as number)}
              y={H - BOTTOM + 17}
              textAnchor="middle"
            >
              {formatLength(p.widthMm as number, units, 2)}
            </text>
          ) : null,
        )}
        <text x={(LEFT + W - RIGHT) / 2} y={H - 4} textAnchor="middle">
          trap width
        </text>
      </svg>
      <figcaption>
        <span className="gap-key gap-key-95" /> 95 trials of 100 stay under this
        <span className="gap-key gap-key-50" /> half of them under this
        <span className="gap-key gap-key-now" /> your trap now
      </figcaption>
      <table className="unseen">
        <caption>Area of gaps by trap width</caption>
        <thead>
          <tr>
            <th scope="col">Trap</th>
            <th scope="col">Half of the trials</th>
            <th scope="col">95 of 100</th>
          </tr>
        </thead>
        <tbody>
          {points.map((p) => (
            <tr key={p.widthMm as number}>
              <td>{formatLength(p.widthMm as number, units, 2)}</td>
              <td>{areaWords(p.areaMm2.p50)}</td>
              <td>{areaWords(p.areaMm2.p95)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
}
