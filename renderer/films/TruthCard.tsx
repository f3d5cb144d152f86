import { useState } from 'react';
import { type CalibrationMeasures, calibrate, calibrationFrame } from '../../core/film/index.ts';
import { jobPrinter } from '../../core/jobPrinter.ts';
import { exportCalibration } from '../acts/index.ts';
import { Card, NumberBox } from '../bench/index.ts';
import { changePrinter, edit, useStudio } from '../state/index.ts';

const ASKED: readonly { readonly key: keyof CalibrationMeasures; readonly label: string }[] = [
  { key: 'width', label: 'Crosses 1 to 2, width' },
  { key: 'height', label: 'Crosses 1 to 4, height' },
  { key: 'rising', label: 'Crosses 1 to 3, diagonal' },
  { key: 'falling', label: 'Crosses 2 to 4, diagonal' },
];
const percent = (scale: number) => `${(scale * 100).toFixed(2)} %`;

/** How true the printer prints, from the four lengths measured on its calibration sheet. */
export function TruthCard() {
  const job = useStudio((s) => s.job)!;
  const working = useStudio((s) => s.exporting !== null);
  const { printer } = job;
  const known = jobPrinter(job);
  const frame = known.ok ? calibrationFrame(known.value.printer) : null;
  const [typed, setTyped] = useState<Partial<CalibrationMeasures>>({});
  if (!frame) return null;
  const stated: CalibrationMeasures = {
    width: frame.width,
    height: frame.height,
    rising: frame.diagonal,
    falling: frame.diagonal,
  };
  const measured = { ...stated, ...typed };
  const found = calibrate(frame, measured);
  const put = (change: Partial<typeof printer>) =>
    edit('Correct the printer', (j) => changePrinter(j, change), 'calibration');
  return (
    <Card title="Does it print true?">
      <p className="hint">
        Print calibration.pdf at 100 % on the film you use, let it cool, and measure from cross to cross with
        a steel rule.
      </p>
      <button type="button" disabled={working} onClick={() => void exportCalibration()}>
        Make the calibration sheet
      </button>
      <div className="fields">
        {ASKED.map(({ key, label }) => (
          <NumberBox
            key={key}
            label={label}
            value={Number(measured[key].toFixed(2))}
            min={Math.floor(stated[key] * 0.9)}
            max={Math.ceil(stated[key] * 1.1)}
            step={0.25}
            unit="mm"
            onChange={(n) => setTyped({ ...typed, [key]: n })}
          />
        ))}
      </div>
      {found.ok ? (
        <p aria-live="polite">
          Prints {percent(found.value.scaleX)} wide, {percent(found.value.scaleY)} high, leaning{' '}
          {found.value.skewDeg.toFixed(2)}°.
        </p>
      ) : (
        <p className="trouble" role="alert">
          {found.reason} {found.mend}
        </p>
      )}
      <button
        type="button"
        disabled={!found.ok}
        onClick={() => found.ok && put({ ...found.value, shrinkX: 0, shrinkY: 0 })}
      >
        Correct films by this
      </button>
      <p className="hint">
        Films are now corrected for {percent(printer.scaleX)} by {percent(printer.scaleY)},{' '}
        {(printer.skewDeg ?? 0).toFixed(2)}°. Once they are, the calibration sheet comes with a check page:
        printed, every length on it must be as stated. Never enter what you measure on the check page.
      </p>
    </Card>
  );
}
