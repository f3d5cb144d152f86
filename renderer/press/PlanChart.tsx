import { clockOf, makeCalendar, planScale, type RunPlan, type RunPlanInput } from '../../core/press/index.ts';

const [W, NAME, ROW, HEAD] = [760, 130, 24, 26];

const FILLS: Readonly<Record<string, string>> = {
  film: 'var(--ink-soft)',
  screen: 'var(--focus)',
  press: 'var(--accent)',
  coat: 'var(--fair)',
  drying: 'url(#plan-drying)',
};
const WORDS = [
  ['film', 'film'],
  ['screen', 'screen'],
  ['press', 'press'],
  ['coat', 'clear coat'],
  ['drying', 'drying'],
] as const;

/** The run as bars over days: a row a screen; working hours light, nights drawn in. */
export function PlanChart({
  plan,
  input,
  hexOf,
}: {
  plan: RunPlan;
  input: RunPlanInput;
  hexOf: (pull: number) => string | undefined;
}) {
  const calendar = makeCalendar(input.hours, input.firstWeekday);
  if (!calendar || plan.tasks.length === 0) return null;
  const { at, days } = planScale(calendar, plan.end);
  const rows = [...new Set(plan.tasks.map((t) => t.row))];
  const height = HEAD + rows.length * ROW + 28;
  const x = (share: number) => NAME + share * (W - NAME - 6);
  const placed = new Map(plan.placed.map((p) => [p.id, p]));
  return (
    <svg
      className="plan-chart"
      viewBox={`0 0 ${W} ${height}`}
      role="img"
      aria-label={`Plan over ${days.length} days`}
    >
      <defs>
        <pattern
          id="plan-drying"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect width="6" height="6" fill="var(--line)" opacity="0.45" />
          <rect width="2" height="6" fill="var(--ink-soft)" opacity="0.55" />
        </pattern>
      </defs>
      {days.map((day) => (
        <g key={day.day}>
          {day.work && (
            <rect
              x={x(day.work[0])}
              y={HEAD}
              width={x(day.work[1]) - x(day.work[0])}
              height={rows.length * ROW}
              fill="var(--paper)"
            />
          )}
          <line x1={x(day.from)} x2={x(day.from)} y1={4} y2={HEAD + rows.length * ROW} stroke="var(--line)" />
          {x(day.to) - x(day.from) > 34 && (
            <text x={x(day.from) + 4} y={18} fontSize="12" fontWeight="650" fill="var(--ink)">
              {day.name} {day.day + 1}
            </text>
          )}
        </g>
      ))}
      {rows.map((row, i) => {
        const y = HEAD + i * ROW;
        const tasks = plan.tasks.filter((t) => t.row === row);
        const pull = tasks[0]?.pull;
        const hex = pull == null ? undefined : hexOf(pull);
        return (
          <g key={row}>
            <line x1={0} x2={W} y1={y + ROW} y2={y + ROW} stroke="var(--line)" opacity={0.6} />
            {hex && <rect x={6} y={y + 6} width={12} height={12} fill={hex} stroke="var(--ink-soft)" />}
            <text x={24} y={y + 16} fontSize="12" fill="var(--ink)">
              {row.length > 17 ? `${row.slice(0, 16)}…` : row}
            </text>
            {tasks.map((task) => {
              const p = placed.get(task.id);
              if (!p) return null;
              const thin = task.work === 'drying' ? 6 : 3;
              return (
                <rect
                  key={task.id}
                  x={x(at(p.start))}
                  y={y + thin}
                  width={Math.max(1.5, x(at(p.end)) - x(at(p.start)))}
                  height={ROW - 2 * thin}
                  fill={FILLS[task.work]}
                  stroke="var(--paper)"
                  strokeWidth={0.6}
                  opacity={task.finishedAt === undefined ? 1 : 0.4}
                >
                  <title>{`${task.name}: day ${Math.floor(p.start / 1440) + 1}, ${clockOf(p.start)} to ${clockOf(p.end)}`}</title>
                </rect>
              );
            })}
          </g>
        );
      })}
      {WORDS.map(([work, words], i) => (
        <g key={work}>
          <rect x={8 + i * 108} y={height - 18} width={14} height={11} fill={FILLS[work]} />
          <text x={27 + i * 108} y={height - 8} fontSize="12" fill="var(--ink-soft)">
            {words}
          </text>
        </g>
      ))}
    </svg>
  );
}
