import type { Drawing } from '../../core/press/index.ts';
import './screens.css';

const COLOURS = {
  cut: 'var(--accent)',
  drill: 'var(--focus)',
  mark: 'var(--ink)',
  frame: 'var(--ink-soft)',
  text: 'var(--ink)',
} as const;

/** A workshop drawing as it will be printed, to look at. */
export function Drawn({ drawing, label }: { drawing: Drawing; label: string }) {
  const { box, items } = drawing;
  const y = (v: number) => box.y + box.height - v;
  return (
    <svg className="drawn" viewBox={`0 0 ${box.width} ${box.height}`} role="img" aria-label={label}>
      {items.map((item, i) => {
        const key = `${i} ${item.kind}`;
        if (item.kind === 'text')
          return (
            <text
              key={key}
              x={item.x - box.x}
              y={y(item.y)}
              fontSize={item.height / 0.72}
              textAnchor={item.middle ? 'middle' : 'start'}
              fill={COLOURS.text}
            >
              {item.text}
            </text>
          );
        const pen = {
          fill: 'none',
          stroke: COLOURS[item.layer],
          strokeWidth: 1.2,
          vectorEffect: 'non-scaling-stroke' as const,
        };
        if (item.kind === 'circle')
          return <circle key={key} cx={item.x - box.x} cy={y(item.y)} r={item.radius} {...pen} />;
        const d = item.points.map(
          ([px, py], k) => `${k === 0 ? 'M' : 'L'}${(px - box.x).toFixed(2)} ${y(py).toFixed(2)}`,
        );
        return (
          <path
            key={key}
            d={`${d.join(' ')}${item.closed ? ' Z' : ''}`}
            {...pen}
            strokeDasharray={item.dashed ? '4 3' : undefined}
          />
        );
      })}
    </svg>
  );
}
