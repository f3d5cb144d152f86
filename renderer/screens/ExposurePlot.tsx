import { type BurnedScreen, tabletFactor } from '../../core/press/index.ts';

const [W, H, EDGE] = [420, 130, 26];

/** Exposures of the log in order: hollow as burned, filled as its tablet says it should have been; others are faint. */
export function ExposurePlot({
  log,
  alike,
  target,
}: {
  log: readonly BurnedScreen[];
  /** Which of them tell about the screen at hand. */
  alike: readonly boolean[];
  target: number;
}) {
  const first = Math.max(0, log.length - 30);
  const shown = log.slice(first).map((screen, i) => ({
    alike: alike[first + i] ?? false,
    time: screen.time,
    should:
      screen.step === undefined
        ? screen.time
        : screen.time * tabletFactor((screen.targetStep ?? target) - screen.step),
  }));
  const all = shown.flatMap((s) => [s.time, s.should]);
  const [low, high] = [Math.min(...all) / 1.2, Math.max(...all) * 1.2];
  const y = (t: number) =>
    H - EDGE + 6 - ((Math.log(t) - Math.log(low)) / Math.log(high / low)) * (H - EDGE - 8);
  const x = (i: number) => EDGE + 12 + (i * (W - EDGE - 24)) / Math.max(1, shown.length - 1);
  return (
    <svg
      className="drawn"
      viewBox={`0 0 ${W} ${H}`}
      role="img"
      aria-label={`${shown.length} exposures, newest last`}
    >
      {[low * 1.2, high / 1.2].map((t) => (
        <g key={t}>
          <line x1={EDGE} x2={W - 6} y1={y(t)} y2={y(t)} stroke="var(--line)" />
          <text x={4} y={y(t) + 4} fontSize="11" fill="var(--ink-soft)">
            {t.toFixed(0)} s
          </text>
        </g>
      ))}
      {shown.map((s, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the log only grows
        <g key={i} opacity={s.alike ? 1 : 0.35}>
          <line
            x1={x(i)}
            x2={x(i)}
            y1={y(s.time)}
            y2={y(s.should)}
            stroke="var(--ink-soft)"
            strokeDasharray="2 2"
          />
          <circle cx={x(i)} cy={y(s.should)} r={4} fill="var(--accent)" />
          <circle cx={x(i)} cy={y(s.time)} r={4} fill="none" stroke="var(--ink)" strokeWidth={1.5} />
        </g>
      ))}
      <text x={EDGE} y={H - 4} fontSize="11" fill="var(--ink-soft)">
        ring: as burned · dot: as its tablet asked · faint: other emulsion, lamp or mesh
      </text>
    </svg>
  );
}
