import { openJob, saveJob, setBench } from '../acts/index.ts';
import { Icon } from '../bench/index.ts';
import { GuideButton } from '../guide/index.ts';
import { edit, redo, sealEdits, undo, useStudio } from '../state/index.ts';
import { Problems } from './Problems.tsx';
import { Steps } from './Steps.tsx';
import { isDark } from './theme.ts';
import { Words } from './Words.tsx';

/** What the header says of the file: its name only where it is not the job's own. */
export function fileWords(job: string, file: string, hasFile: boolean, unsaved: boolean): string {
  const state = unsaved ? (hasFile ? 'changed' : 'not saved yet') : hasFile ? 'saved' : '';
  const other = file !== '' && file.toLowerCase() !== job.toLowerCase() ? file : '';
  return [other, state].filter((part) => part !== '').join(', ') || 'nothing unsaved';
}

/** The job's name on tape, what can be undone, and files. */
export function Header() {
  const job = useStudio((s) => s.job)!;
  const unsaved = useStudio((s) => s.job !== s.saved);
  const fileName = useStudio((s) => s.fileName);
  const handle = useStudio((s) => s.handle);
  const last = useStudio((s) => s.history.past.at(-1)?.label);
  const next = useStudio((s) => s.history.future[0]?.label);
  const theme = useStudio((s) => s.shop.bench?.theme ?? 'system');
  const working = useStudio((s) => s.working.length > 0);
  const dark = isDark(theme);
  return (
    <header className="top">
      <h1 className="job-name">
        <input
          aria-label="Job name"
          value={job.name}
          maxLength={200}
          size={Math.max(8, Math.min(34, job.name.length))}
          onChange={(e) =>
            e.target.value.trim() && edit('Rename job', (j) => ({ ...j, name: e.target.value }), 'job name')
          }
          onBlur={sealEdits}
        />
      </h1>
      <p className="file-state">
        {fileWords(job.name, fileName, handle !== null, unsaved)}
        <span className={working ? 'working on' : 'working'} aria-hidden="true" />
      </p>
      <div className="history">
        <button
          type="button"
          onClick={undo}
          disabled={!last}
          title={last ? `Undo: ${last}` : 'Nothing to undo'}
          aria-label={last ? `Undo: ${last}` : 'Nothing to undo'}
        >
          <Icon name="undo" />
          <span>{last ?? 'Nothing to undo'}</span>
        </button>
        <button
          type="button"
          onClick={redo}
          disabled={!next}
          title={next ? `Redo: ${next}` : 'Nothing to redo'}
          aria-label={next ? `Redo: ${next}` : 'Nothing to redo'}
        >
          <Icon name="redo" />
          {next && <span>{next}</span>}
        </button>
        <Steps />
      </div>
      <div className="top-right">
        <Problems />
        <button
          type="button"
          onClick={() => edit('Change units', (j) => ({ ...j, units: j.units === 'mm' ? 'in' : 'mm' }))}
          aria-label={`${job.units}: lengths in ${job.units === 'mm' ? 'millimetres' : 'inches'}; change`}
        >
          <b>{job.units}</b>
        </button>
        <button
          type="button"
          onClick={() => void setBench(() => ({ theme: dark ? 'light' : 'dark' }))}
          aria-label={dark ? 'Light bench' : 'Dark bench'}
        >
          <Icon name={dark ? 'light' : 'dark'} />
        </button>
        <Words />
        <GuideButton />
        <span className="top-gap" />
        <button
          type="button"
          onClick={() => {
            if (!unsaved || window.confirm('This job has unsaved changes. Start over without saving?'))
              useStudio.setState({ job: null, saved: null, proofs: null });
          }}
        >
          <Icon name="fresh" /> New
        </button>
        <button type="button" onClick={() => void openJob()}>
          <Icon name="open" /> Open
        </button>
        <button type="button" className={unsaved ? 'save on' : 'save'} onClick={() => void saveJob()}>
          <Icon name="save" /> Save
        </button>
      </div>
    </header>
  );
}
