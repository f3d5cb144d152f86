import { useState } from 'react';
import type { ShellInfo } from '../../core/ports/index.ts';
import { firstDeck, openDemo, openJob, openRecent, pickArt, showJob, startJob } from '../acts/index.ts';
import { DeckDrawing } from '../deck/index.ts';
import { GuideButton } from '../guide/index.ts';

/** An empty bench: start from art, from a deck, or from the demonstration job. */
export function Welcome({ info }: { info: ShellInfo | null }) {
  const [deck] = useState(firstDeck);
  const [busy, setBusy] = useState(false);
  const doing = (act: () => Promise<unknown>) => () => {
    setBusy(true);
    void act().finally(() => setBusy(false));
  };
  const recovered = info?.recovered;
  return (
    <main className="welcome" aria-busy={busy}>
      <h1>
        Kickflat
        <small>From your drawing to registered films, on real wood.</small>
      </h1>
      <div className="welcome-deck">
        <DeckDrawing deck={deck} />
      </div>
      {recovered && (
        <section className="welcome-recovered">
          <p>
            <b>Unsaved work was kept: {recovered.name}</b>
          </p>
          <button type="button" className="button-main" onClick={doing(() => showJob(recovered, true))}>
            Open it again
          </button>
        </section>
      )}
      <div className="starts">
        <button type="button" onClick={doing(pickArt)}>
          <b>Start from art</b>
          <span>Pick or drop a picture; its inks are found and it is laid on a deck.</span>
        </button>
        <button type="button" onClick={doing(() => startJob('New job', firstDeck()))}>
          <b>Start from a deck</b>
          <span>Measure your wood first: shape, truck holes, concave, kicks.</span>
        </button>
        <button type="button" onClick={doing(openDemo)}>
          <b>Look at the demo</b>
          <span>“Night Heron”: five inks under, two on top, four veneers.</span>
        </button>
      </div>
      <div className="welcome-files">
        <button type="button" onClick={doing(openJob)}>
          Open a job
        </button>
        <GuideButton />
        {(info?.recent.length ?? 0) > 0 && (
          <ul aria-label="Recent jobs">
            {info!.recent.slice(0, 6).map((r) => (
              <li key={r.handle}>
                <button type="button" onClick={doing(() => openRecent(r.handle))}>
                  {r.name} <small>{new Date(r.when).toLocaleDateString()}</small>
                </button>
              </li>
            ))}
          </ul>
        )}
      </div>
    </main>
  );
}
