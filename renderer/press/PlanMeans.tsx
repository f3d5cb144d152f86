import { clockOf, type RunPlanInput, type TaskTimes, USUAL_TIMES, WEEKDAYS } from '../../core/press/index.ts';
import { hoursOf } from '../../core/runOf.ts';
import { NumberBox, Pick } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

const TIME_WORDS: Readonly<Record<keyof TaskTimes, string>> = {
  film: 'print and join a film',
  coat: 'coat a screen',
  coatDry: 'emulsion dries',
  expose: 'expose',
  wash: 'wash out',
  screenDry: 'screen dries',
  setUp: 'tape, register, test',
  pull: 'print a deck',
  inkDry: 'ink dries',
  inkSwap: 'swap an ink',
  clean: 'clean a screen',
  strip: 'strip a stencil',
  clearCoat: 'clear coat a deck',
  clearDry: 'clear coat dries',
};

/** What the run is planned with: frames, places, people, the first day, working hours, your own times. */
export function PlanMeans({ input }: { input: RunPlanInput }) {
  const job = useStudio((s) => s.job)!;
  const { press } = job;
  const put = (change: Partial<typeof press>) =>
    edit('Change the plan', (j) => changePress(j, change), `plan ${Object.keys(change)}`);
  const hours = hoursOf(job);
  const setHours = (day: number, value: readonly [number, number] | null) =>
    put({ hours: hours.map((h, i) => (i === day ? value : h)).map((h) => (h ? [h[0], h[1]] : null)) });
  const resource = (
    label: string,
    key: 'frames' | 'dryingPlaces' | 'exposureUnits' | 'people' | 'rack' | 'clearCoats',
    least: number,
    most: number,
  ) => (
    <NumberBox
      label={label}
      value={input[key]}
      min={least}
      max={most}
      digits={0}
      onChange={(n) => put({ [key]: Math.round(n) })}
    />
  );
  return (
    <>
      <div className="fields">
        {resource('Frames', 'frames', 1, 200)}
        {resource('Screens dry at once', 'dryingPlaces', 1, 200)}
        {resource('Exposure units', 'exposureUnits', 1, 20)}
        {resource('People', 'people', 1, 20)}
        {resource('Decks the rack holds', 'rack', 1, 10_000)}
        {resource('Clear coats', 'clearCoats', 0, 20)}
        <div className="field">
          <label htmlFor="plan-start">Begins on</label>
          <input
            id="plan-start"
            type="date"
            value={press.startDate ?? ''}
            onChange={(e) => put({ startDate: e.target.value === '' ? undefined : e.target.value })}
          />
        </div>
        {press.startDate === undefined && (
          <Pick
            label="First day"
            value={String(input.firstWeekday)}
            options={WEEKDAYS.map((name, i) => ({ value: String(i), label: name }))}
            onChange={(day) => put({ firstWeekday: Number(day) })}
          />
        )}
      </div>
      <details>
        <summary className="hint">Working hours</summary>
        <div className="hours">
          {WEEKDAYS.map((name, day) => {
            const h = hours[day] ?? null;
            const change = (which: 0 | 1) => (e: React.ChangeEvent<HTMLInputElement>) => {
              const [hh, mm] = e.target.value.split(':').map(Number);
              const minute = (hh ?? 0) * 60 + (mm ?? 0);
              if (!h || !Number.isFinite(minute)) return;
              const next: [number, number] = which === 0 ? [minute, h[1]] : [h[0], minute];
              if (next[1] > next[0]) setHours(day, next);
            };
            return (
              <div key={name}>
                <label>
                  <input
                    type="checkbox"
                    checked={h !== null}
                    onChange={(e) => setHours(day, e.target.checked ? [18 * 60, 22 * 60] : null)}
                  />{' '}
                  {name}
                </label>
                {h && (
                  <>
                    <input
                      type="time"
                      aria-label={`${name} from`}
                      value={clockOf(h[0])}
                      onChange={change(0)}
                    />
                    <input
                      type="time"
                      aria-label={`${name} to`}
                      value={clockOf(Math.min(h[1], 1439))}
                      onChange={change(1)}
                    />
                  </>
                )}
              </div>
            );
          })}
        </div>
      </details>
      <details>
        <summary className="hint">Your own times, minutes</summary>
        <div className="fields">
          {(Object.keys(TIME_WORDS) as (keyof TaskTimes)[]).map((key) => (
            <NumberBox
              key={key}
              label={TIME_WORDS[key]}
              value={press.times?.[key] ?? USUAL_TIMES[key]}
              min={0}
              max={20_000}
              unit="min"
              onChange={(n) => put({ times: { ...press.times, [key]: n } })}
            />
          ))}
        </div>
      </details>
    </>
  );
}
