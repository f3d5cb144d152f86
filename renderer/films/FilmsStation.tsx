import { useState } from 'react';
import { exportFilms } from '../acts/index.ts';
import { Card, InTurn, Measure, Picture, Toggle, WorkButton } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';
import { BoundariesCard } from './BoundariesCard.tsx';
import { PrinterCard } from './PrinterCard.tsx';
import { TruthCard } from './TruthCard.tsx';
import './films.css';

/** The films of the face and how many sheets each takes. */
function FilmList() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const plan = useStudio((s) => s.filmPlan);
  const prints = useStudio((s) => s.proofs?.prints);
  const inkId = useStudio((s) => s.inkId);
  const { inks } = job.faces[face];
  const films = plan?.face === face ? plan.films : [];
  const chosen = films.find((f) => f.inkId === inkId) ?? films[0];
  const sheets = plan?.face === face ? plan.pages : 0;
  const crossings = films.reduce((n, f) => n + f.sheets.reduce((m, s) => m + s.crossings.length, 0), 0);
  return (
    <Card title={`Films, ${face}`} wide>
      {plan?.trouble && (
        <p className="trouble" role="alert">
          {plan.trouble.reason} {plan.trouble.mend}
        </p>
      )}
      {inks.length === 0 && <p className="empty">There are no inks on this face, so there are no films.</p>}
      <div className="measures">
        <Measure value={String(films.length || inks.length)} label="films, one an ink" />
        <Measure value={films.length > 0 ? String(sheets) : '…'} label="sheets to print" />
        <Measure
          value={films.length > 0 ? String(crossings) : '…'}
          label="places to touch up, where cuts cross ink"
        />
      </div>
      <ul className="films">
        {inks.map((ink, i) => {
          const film = films.find((f) => f.inkId === ink.id);
          return (
            <li key={ink.id}>
              <button
                type="button"
                aria-pressed={ink.id === chosen?.inkId}
                onClick={() => useStudio.setState({ inkId: ink.id })}
              >
                <span className="pull-number">{i + 1}</span>
                <span className="ink-drop" style={{ background: ink.hex }} />
                <b>{ink.name}</b>
                <Picture bitmap={prints?.get(ink.id)?.picture} label={`Film of ${ink.name}`} />
                <span className="film-sheets">
                  {film ? `${film.sheets.length} ${film.sheets.length === 1 ? 'sheet' : 'sheets'}` : ''}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
      {(plan?.notes.length ?? 0) > 0 && (
        <ul className="notes">
          {plan!.notes.map((n) => (
            <li key={n}>{n}</li>
          ))}
        </ul>
      )}
      {crossings > 0 && (
        <p className="hint">
          Counted here on the screen’s picture; assembly.pdf counts on the films’ own points and may differ by
          a few.
        </p>
      )}
    </Card>
  );
}

/** Sends the job to be made into films. */
function ExportCard() {
  const job = useStudio((s) => s.job)!;
  const [masks, setMasks] = useState(false);
  const ready = (['bottom', 'top'] as const).filter(
    (f) => job.faces[f].inks.length > 0 && job.faces[f].art.length > 0,
  );
  const [wanted, setWanted] = useState<Record<'bottom' | 'top', boolean>>({ bottom: true, top: true });
  const faces = ready.filter((f) => wanted[f]);
  return (
    <Card title="Make films">
      {ready.length === 0 && <p className="hint">Films need art and at least one ink.</p>}
      {(['bottom', 'top'] as const).map(
        (f) =>
          ready.includes(f) && (
            <Toggle
              key={f}
              label={`${f === 'bottom' ? 'Bottom' : 'Top'}: ${job.faces[f].inks.length} films`}
              on={wanted[f]}
              onChange={(on) => setWanted({ ...wanted, [f]: on })}
            />
          ),
      )}
      <Toggle
        label="Each film as a picture too"
        hint="1-bit PNG, one a film, without marks"
        on={masks}
        onChange={setMasks}
      />
      <WorkButton
        words="Make films"
        doing="Making films"
        ready={faces.length > 0}
        onStart={() => void exportFilms(faces, masks)}
      />
      <p className="hint">
        films.pdf to print at 100 %, assembly.pdf that shows how sheets join, films.json for the record.
      </p>
    </Card>
  );
}

/** The chosen film's boundaries, when its sheets are known. */
function ChosenFilm() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const plan = useStudio((s) => s.filmPlan);
  const inkId = useStudio((s) => s.inkId);
  const films = plan?.face === face ? plan.films : [];
  const film = films.find((f) => f.inkId === inkId) ?? films[0];
  const ink = job.faces[face].inks.find((one) => one.id === film?.inkId);
  return film && ink ? <BoundariesCard film={film} name={ink.name} /> : null;
}

/** Films and the sheets they are printed on. */
export function FilmsStation() {
  return (
    <InTurn>
      <FilmList />
      <ChosenFilm />
      <ExportCard />
      <PrinterCard />
      <TruthCard />
    </InTurn>
  );
}
