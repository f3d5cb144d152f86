import { exportPress } from '../acts/index.ts';
import { Card, WorkButton } from '../bench/index.ts';
import { printedReady, useStudio } from '../state/index.ts';

/** Makes the papers of the run, the same as on the command line. */
export function PressSheetsCard() {
  const job = useStudio((s) => s.job)!;
  const ready = printedReady(job);
  return (
    <Card title="Make press sheets">
      <p className="hint">
        Run sheet with a page a pull; jig, squeegee and bending form at 1:1, also as SVG and DXF; calibration
        sheet and step-test film.
      </p>
      <WorkButton
        words="Make press sheets"
        doing="Making press sheets"
        ready={ready}
        onStart={() => void exportPress()}
      />
      {!ready && <p className="hint">They need art and at least one ink.</p>}
    </Card>
  );
}
