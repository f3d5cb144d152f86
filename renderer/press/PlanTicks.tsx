import { clockOf, type RunPlan, WEEKDAYS } from '../../core/press/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { dayOf, minuteNow } from './planClock.ts';

/** What to do when; what is ticked was done at its own time, and the rest is planned again from there. */
export function PlanTicks({ plan, firstWeekday }: { plan: RunPlan; firstWeekday: number }) {
  const startDate = useStudio((s) => s.job!.press.startDate);
  // The document's own ticks: the plan is worked out anew a moment later.
  const finished = useStudio((s) => s.job!.press.finished);
  const set = (id: string, end: number | null, squash: string | null = null) =>
    edit(
      end === null ? 'Untick a task' : squash ? 'Change when a task was done' : 'Tick a task',
      (j) => {
        const finished = { ...j.press.finished };
        if (end === null) delete finished[id];
        else finished[id] = Math.max(0, Math.min(1e6, end));
        return changePress(j, { finished });
      },
      squash,
    );
  const doneAt = (id: string): number | undefined => finished?.[id];
  const day = (minute: number) => {
    const n = Math.floor(minute / 1440);
    return startDate === undefined
      ? `${WEEKDAYS[(firstWeekday + n) % 7]} ${n + 1}`
      : `${WEEKDAYS[(firstWeekday + n) % 7]} ${dayOf(startDate, n)}`;
  };
  const placed = new Map(plan.placed.map((p) => [p.id, p]));
  const tasks = plan.tasks
    .filter((t) => t.attended)
    .map((task) => ({ task, p: placed.get(task.id)! }))
    .sort((a, b) => a.p.start - b.p.start);
  const done = tasks.filter(({ task }) => doneAt(task.id) !== undefined).length;
  return (
    <details>
      <summary>
        What to do when: {done} of {tasks.length} done. Tick what is done, and the rest is planned again.
      </summary>
      <div className="plan-list">
        {tasks.map(({ task, p }) => (
          <div key={task.id} className="plan-line">
            <label>
              <input
                type="checkbox"
                checked={doneAt(task.id) !== undefined}
                onChange={(e) => set(task.id, e.target.checked ? (minuteNow(startDate) ?? p.end) : null)}
              />
              {doneAt(task.id) === undefined && (
                <time>
                  {day(p.start)}, {clockOf(p.start)}
                </time>
              )}
              <span className={doneAt(task.id) === undefined ? '' : 'finished'}>{task.name}</span>
            </label>
            {doneAt(task.id) !== undefined && (
              <DoneAt
                name={task.name}
                minute={doneAt(task.id)!}
                onChange={(minute) => set(task.id, minute, `done at ${task.id}`)}
              />
            )}
          </div>
        ))}
      </div>
    </details>
  );
}

/** When a task was done: day of the run, counted from 1, and the time of day. */
function DoneAt({
  name,
  minute,
  onChange,
}: {
  name: string;
  minute: number;
  onChange: (minute: number) => void;
}) {
  const n = Math.floor(minute / 1440);
  return (
    <span className="done-at">
      day{' '}
      <input
        type="number"
        aria-label={`Day on which it was done: ${name}`}
        min={1}
        max={690}
        value={n + 1}
        onChange={(e) => {
          const day = Math.round(Number(e.target.value));
          if (day >= 1) onChange((day - 1) * 1440 + (minute % 1440));
        }}
      />
      <input
        type="time"
        aria-label={`Time at which it was done: ${name}`}
        value={clockOf(minute)}
        onChange={(e) => {
          const [h, m] = e.target.value.split(':').map(Number);
          if (Number.isFinite(h) && Number.isFinite(m)) onChange(n * 1440 + h! * 60 + m!);
        }}
      />
    </span>
  );
}
