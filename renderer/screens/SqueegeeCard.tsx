import { useState } from 'react';
import { curvedSqueegee, sectionOf, squeegeeDrawing, USUAL } from '../../core/press/index.ts';
import { Card, LengthField, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changePress, edit, formatLength, useStudio } from '../state/index.ts';
import { Drawn } from './Drawn.tsx';
import { Worked } from './Worked.tsx';

/** The curved squeegee of the face and the form to bend it on. */
export function SqueegeeCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const [rise, setRise] = useState<number | null>(null);
  const plies = job.press.plies ?? USUAL.plies.value;
  const input = { ...sectionOf(job.deck, face), blade: job.press.blade, plies };
  const drawn = squeegeeDrawing(input);
  return (
    <Card title={`Squeegee, ${face}`}>
      <div className="fields">
        <LengthField
          label="Blade"
          value={job.press.blade}
          min={0}
          max={2000}
          step={5}
          onChange={(blade) => edit('Change blade', (j) => changePress(j, { blade }), 'press blade')}
        />
        <NumberBox
          label="Plies of the handle"
          value={plies}
          min={2}
          max={50}
          digits={0}
          onChange={(n) => edit('Change plies', (j) => changePress(j, { plies: Math.round(n) }), 'plies')}
        />
        <Toggle label="One at hand" on={rise !== null} onChange={(on) => setRise(on ? 0 : null)} />
        {rise !== null && (
          <LengthField label="Its rise" value={rise} min={-100} max={100} step={0.1} onChange={setRise} />
        )}
      </div>
      <Worked found={curvedSqueegee({ ...input, ...(rise === null ? {} : { haveRise: rise }) })}>
        {({ edge, rise: wanted, radius, formRadius, endGap }) => (
          <>
            <div className="measures">
              <Measure
                value={radius === null ? 'straight' : formatLength(radius, job.units)}
                label={`${edge} edge, radius`}
              />
              <Measure value={formatLength(wanted, job.units, 2)} label="rise under the blade" />
              {formRadius !== null && (
                <Measure value={formatLength(formRadius, job.units)} label="radius of the form" />
              )}
            </div>
            {endGap !== null && (
              <p className={Math.abs(endGap) > 1 ? 'not-held' : ''}>
                The one at hand leaves {formatLength(Math.abs(endGap), job.units, 2)}{' '}
                {endGap >= 0 ? 'at its ends' : 'at its middle'}.
              </p>
            )}
          </>
        )}
      </Worked>
      {drawn.ok && <Drawn drawing={drawn.value} label="Squeegee edge above, bending form below" />}
      <p className="hint">
        “Make press sheets” at the Press station writes both at 1:1 as squeegee.pdf, SVG and DXF.
      </p>
    </Card>
  );
}
