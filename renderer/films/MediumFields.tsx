import { rollWidth } from '../../core/film/index.ts';
import { FILM_MEDIUMS } from '../../core/job/index.ts';
import { NumberBox, Pick } from '../bench/index.ts';
import { changePrinter, edit, useStudio } from '../state/index.ts';

const percent = (share: number | undefined) => Number(((share ?? 0) * 100).toFixed(3));

/** What the films are printed on, and by how much it shrinks. */
export function MediumFields() {
  const { printer } = useStudio((s) => s.job)!;
  const put = (label: string, change: Partial<typeof printer>) =>
    edit(label, (j) => changePrinter(j, change), `printer ${Object.keys(change)}`);
  const medium = FILM_MEDIUMS.find(({ id }) => id === printer.media) ?? FILM_MEDIUMS[0]!;
  const { usualShrink } = medium;
  const measured = printer.scaleX !== 1 || printer.scaleY !== 1;
  const usual = printer.shrinkX === usualShrink && printer.shrinkY === usualShrink;
  return (
    <>
      <Pick
        label="Printed on"
        value={medium.id}
        options={FILM_MEDIUMS.map(({ id, label }) => ({ value: id, label }))}
        onChange={(media) => put('Change film', { media })}
      />
      <p className="hint">{medium.hint} A measured printer belongs to one kind of film.</p>
      {!medium.rolls && rollWidth(printer.sheet) !== undefined && (
        <p className="trouble" role="alert">
          {medium.label} is sold in sheets, not on rolls. Choose a sheet size, or another film.
        </p>
      )}
      <div className="fields">
        <NumberBox
          label="Shrinks in width"
          value={percent(printer.shrinkX)}
          min={-2}
          max={2}
          step={0.01}
          digits={3}
          unit="%"
          onChange={(n) => put('Change shrink', { shrinkX: n / 100 })}
        />
        <NumberBox
          label="Shrinks in height"
          value={percent(printer.shrinkY)}
          min={-2}
          max={2}
          step={0.01}
          digits={3}
          unit="%"
          onChange={(n) => put('Change shrink', { shrinkY: n / 100 })}
        />
      </div>
      <p className="hint">
        {measured
          ? 'What was measured on this film already holds its shrink: leave these at 0.'
          : `Usual for ${medium.label.toLowerCase()}: ${percent(usualShrink)} %, a habit of the trade and no measurement. Films are drawn larger by what stands here. Measure yours at “Does it print true?” as soon as you can.`}
      </p>
      {!measured && !usual && usualShrink > 0 && (
        <button
          type="button"
          onClick={() => put('Take the usual shrink', { shrinkX: usualShrink, shrinkY: usualShrink })}
        >
          Take {percent(usualShrink)} % until it is measured
        </button>
      )}
    </>
  );
}
