import { exportPress } from '../acts/index.ts';
import { Card } from '../bench/index.ts';
import { printedReady, useStudio } from '../state/index.ts';

/** Makes the papers of the run, the same as on the command line. */
export function PressSheetsCard() {
  const job = useStudio((s) => s.job)!;
  const working = useStudio((s) => s.exporting);
  const ready = printedReady(job);
  return (
    <Card title="Make press sheets">
      <p className="hint">
        Run sheet with a page a pull; jig, squeegee and bending form at 1:1, also as SVG and DXF; calibration
        sheet and step-test film.
      </p>
      {working ? (
        <div className="progress">
          <progress value={working.done} max={1} aria-label="Making press sheets" />
          <p aria-live="polite">{working.text}</p>
          <button type="button" onClick={working.cancel}>
            Stop
          </button>
        </div>
      ) : (
        <button type="button" className="button-main" disabled={!ready} onClick={() => void exportPress()}>
          Make press sheets
        </button>
      )}
      {!ready && <p className="hint">They need art and at least one ink.</p>}
    </Card>
  );
}
