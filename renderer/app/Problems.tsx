import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Problem } from '../../core/check/index.ts';
import { Icon } from '../bench/index.ts';
import { type Station, useStudio } from '../state/index.ts';

const WORDS = { error: 'must be mended', warning: 'look at this', note: 'good to know' } as const;

/** Where problems of a whole face or job are mended. */
const STATION_OF: Readonly<Record<string, Station>> = {
  'no-art': 'art',
  'no-inks': 'inks',
  'film-fits-no-sheet': 'films',
};

/** Shows on the deck what a problem speaks of. */
const show = (p: Problem) => {
  const { face, view } = useStudio.getState();
  // A place that may be out of sight is brought to the middle; at the whole deck everything is in sight.
  if (p.at && !useStudio.getState().fitted) useStudio.setState({ view: { ...view, s: p.at.s, t: p.at.t } });
  useStudio.setState({
    ...(p.face && p.face !== face ? { face: p.face, aloneId: null, filmPlan: null } : {}),
    pointer: p.at,
    ...(p.ink ? { inkId: p.ink } : {}),
    ...(p.art
      ? { selection: [p.art], station: 'art' as const }
      : p.ink
        ? { station: p.code === 'film-fits-no-sheet' ? ('films' as const) : ('inks' as const), selection: [] }
        : { station: STATION_OF[p.code] ?? useStudio.getState().station }),
  });
};

/** What the check found; each line shows its place on the deck. */
export function Problems() {
  const problems = useStudio((s) => s.problems);
  if (problems === null) return null;
  const errors = problems.filter((p) => p.severity === 'error').length;
  const label = problems.length === 0 ? 'No problems' : `${problems.length} to look at`;
  return (
    <DialogTrigger>
      <Button className={`problems-button${errors > 0 ? ' bad' : ''}`} aria-label={`Check: ${label}`}>
        <Icon name={problems.length === 0 ? 'tick' : 'flag'} /> {label}
      </Button>
      <Popover placement="bottom end" className="popover">
        <Dialog aria-label="Problems" className="problems">
          {({ close }) => (
            <>
              {problems.length === 0 && <p>Nothing stands in the way of films.</p>}
              <ul>
                {problems.map((p, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two lines may say the same of two places
                  <li key={i} className={`problem ${p.severity}`}>
                    <button
                      type="button"
                      onClick={() => {
                        close();
                        show(p);
                      }}
                    >
                      <span className="problem-word">{WORDS[p.severity]}</span>
                      <b>{p.what}</b>
                      <span>{p.where}</span>
                      <em>{p.mend}</em>
                    </button>
                  </li>
                ))}
              </ul>
            </>
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
