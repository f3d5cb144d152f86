import { type BurnedScreen, exposureHistory, isAlike } from '../../core/press/index.ts';
import { LogTable } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { ExposurePlot } from './ExposurePlot.tsx';

/** Screens that are listed; the plot shows more. */
const LISTED = 6;

/** Earlier screens: what those of the same emulsion, lamp and mesh say, a plot, and the newest in words. */
export function ExposureLog({
  like,
  target,
}: {
  like: Pick<BurnedScreen, 'emulsion' | 'lamp' | 'meshPerCm' | 'dyed' | 'distance'>;
  target: number;
}) {
  const job = useStudio((s) => s.job)!;
  const log = (job.press.burned ?? []) as unknown as readonly BurnedScreen[];
  if (log.length === 0)
    return (
      <p className="empty">
        Screens you write down show here, and say what the next of the same emulsion, lamp and mesh wants.
      </p>
    );
  const history = exposureHistory(log, like);
  const name = [like.emulsion || 'emulsion without a name', like.lamp || 'lamp without a name'].join(', ');
  return (
    <>
      {history && (
        <p>
          {history.count} earlier {history.count === 1 ? 'screen' : 'screens'} with {name}, mesh{' '}
          {like.meshPerCm} {like.dyed ? 'dyed' : 'white'} {history.count === 1 ? 'says' : 'say'}{' '}
          <b>{history.time.toFixed(history.time < 20 ? 1 : 0)} s</b>
          {history.count > 1 && <>, give or take × {history.spread.toFixed(2)}</>}.
        </p>
      )}
      <ExposurePlot log={log} alike={log.map((screen) => isAlike(screen, like))} target={target} />
      <LogTable
        name="Burned screens, newest first"
        columns={[
          { head: 'emulsion, lamp' },
          { head: 'mesh' },
          { head: 'burned', number: true },
          { head: 'step', number: true },
        ]}
        lines={log}
        most={LISTED}
        cells={(screen) => [
          [screen.emulsion, screen.lamp].filter(Boolean).join(', ') || 'not named',
          `${screen.meshPerCm} ${screen.dyed ? 'dyed' : 'white'}`,
          `${screen.time.toFixed(screen.time < 20 ? 1 : 0)} s`,
          screen.step ?? '–',
        ]}
        removeName={(n) => `Remove screen ${n} from the log`}
        remove={(at) =>
          edit('Remove a burned screen', (j) =>
            changePress(j, { burned: (j.press.burned ?? []).filter((_, k) => k !== at) }),
          )
        }
      />
    </>
  );
}
