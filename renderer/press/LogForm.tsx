import { useState } from 'react';
import type { LogEntry } from '../../core/job/index.ts';
import { lotsOf, pullsOf } from '../../core/runOf.ts';
import { NumberBox, Pick, Toggle } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

const KINDS = ['test', 'printed', 'spoiled', 'rescued', 'note'] as const;

/** One line more for the log. */
export function LogForm() {
  const job = useStudio((s) => s.job)!;
  const pulls = pullsOf(job);
  const lots = lotsOf(job);
  const [at, setAt] = useState(0);
  const [lotAt, setLotAt] = useState(0);
  const [kind, setKind] = useState<LogEntry['kind']>('printed');
  const [decks, setDecks] = useState(1);
  const [numbers, setNumbers] = useState('');
  const [words, setWords] = useState('');
  const [photo, setPhoto] = useState('');
  const [off, setOff] = useState<{ along: number; across: number } | null>(null);
  const pull = pulls[Math.min(at, pulls.length - 1)];
  const lot = lots[Math.min(lotAt, lots.length - 1)];
  if (!pull) return null;
  const write = () => {
    const entry: LogEntry = {
      face: pull.face,
      inkId: pull.ink.id,
      kind,
      decks: kind === 'note' ? 0 : decks,
      words: words.trim(),
      ...(lot ? { veneerId: lot.veneerId, colourwayId: lot.colourwayId } : {}),
      ...(numbers.trim() === '' ? {} : { deckNumbers: numbers.trim() }),
      ...(photo.trim() === '' ? {} : { photo: photo.trim() }),
      ...(off ?? {}),
    };
    edit('Write in the log', (j) => changePress(j, { log: [...(j.press.log ?? []), entry] }));
    setNumbers('');
    setWords('');
    setPhoto('');
    setOff(null);
  };
  const line = (label: string, id: string, value: string, most: number, put: (text: string) => void) => (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input id={id} value={value} maxLength={most} onChange={(e) => put(e.target.value)} />
    </div>
  );
  return (
    <form
      className="log-form"
      aria-label="A line for the log"
      onSubmit={(e) => {
        e.preventDefault();
        write();
      }}
    >
      <Pick
        label="Pull"
        value={String(Math.min(at, pulls.length - 1))}
        options={pulls.map((p, i) => ({ value: String(i), label: `${p.face} ${p.pull} ${p.ink.name}` }))}
        onChange={(v) => setAt(Number(v))}
      />
      <Pick
        label="What"
        value={kind}
        options={KINDS.map((k) => ({ value: k, label: k }))}
        onChange={setKind}
      />
      {lots.length > 0 && (
        <Pick
          label="Lot"
          value={String(Math.min(lotAt, lots.length - 1))}
          options={lots.map((l, i) => ({ value: String(i), label: `${l.veneer}, ${l.colourway}` }))}
          onChange={(v) => setLotAt(Number(v))}
        />
      )}
      <NumberBox
        label="Decks"
        value={decks}
        min={0}
        max={10_000}
        digits={0}
        onChange={(n) => setDecks(Math.round(n))}
      />
      {line('Their numbers, as 3 or 4-7', 'log-numbers', numbers, 200, setNumbers)}
      {line('Notes', 'log-words', words, 2000, setWords)}
      {line('A photo’s path', 'log-photo', photo, 1000, setPhoto)}
      <Toggle
        label="Register read"
        hint="How far this pull lies off on the deck; it teaches the traps how far your pulls wander."
        on={off !== null}
        onChange={(on) => setOff(on ? { along: 0, across: 0 } : null)}
      />
      {off !== null && (
        <>
          <NumberBox
            label="To the nose +"
            value={off.along}
            min={-50}
            max={50}
            step={0.1}
            unit="mm"
            onChange={(along) => setOff({ ...off, along })}
          />
          <NumberBox
            label="Away from you +"
            value={off.across}
            min={-50}
            max={50}
            step={0.1}
            unit="mm"
            onChange={(across) => setOff({ ...off, across })}
          />
        </>
      )}
      <button type="submit">Write</button>
    </form>
  );
}
