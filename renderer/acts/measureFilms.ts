import { measureKey } from '../../core/measureKey.ts';
import { tell, useStudio } from '../state/index.ts';
import { onPackedJob } from './exportFilms.ts';
import { shell } from './shell.ts';

/** Has the program measure every film at its own resolution; the deck then shows where they are fine. */
export async function measureFilms(): Promise<void> {
  const { job } = useStudio.getState();
  if (!job) return;
  const key = measureKey(job);
  const made = await onPackedJob((bytes, _name, progress) => shell().measureFilms(bytes, progress));
  if (!made) return;
  if (made.ok) useStudio.setState({ measures: { key, films: made.value } });
  else if (made.kind === 'cancelled') tell('note', 'Measuring stopped.');
  else tell('trouble', made.reason, made.mend);
}
