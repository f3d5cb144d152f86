import { measureFilms } from '../acts/index.ts';
import { Card, WorkButton } from '../bench/index.ts';
import { freshMeasures, printedReady, useStudio } from '../state/index.ts';

/** Has every real film measured, and says what the deck then shows. */
export function MeasureCard() {
  const job = useStudio((s) => s.job)!;
  const measures = useStudio((s) => s.measures);
  const fresh = freshMeasures({ job, measures });
  const ready = printedReady(job);
  return (
    <Card title="Finest lines and gaps">
      <p className="hint">
        Makes every film as it will be printed, at {job.printer.dpi} dpi, and measures how wide its ink and
        its gaps are, all over. It takes about as long as making the films.
      </p>
      <WorkButton
        words={fresh ? 'Measure again' : 'Measure the films'}
        doing="Measuring the films"
        ready={ready}
        onStart={() => void measureFilms()}
      />
      {measures && !fresh && (
        <p className="not-held" role="status">
          The job has changed since its films were measured: measure again.
        </p>
      )}
      {fresh && (
        <ul className="fine-key" aria-label="What the deck shows">
          <li>
            <span className="fine-lost" aria-hidden="true" /> strokes: finer than this pull’s mesh holds
          </li>
          <li>
            <span className="fine-held" aria-hidden="true" /> dots: under 0.5 mm, and held
          </li>
        </ul>
      )}
    </Card>
  );
}
