import { Card, LengthField, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changeFace, changeInk, changePress, edit, formatLength, useStudio } from '../state/index.ts';

/** Mesh, frame and off-contact: what the screens need to know. */
export function ScreensStation() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { press } = job;
  const { inks, measuredGrowth } = job.faces[face];
  const put = (label: string, change: Partial<typeof press>) =>
    edit(label, (j) => changePress(j, change), `press ${Object.keys(change)}`);
  const grow = (key: 'along' | 'across', percent: number | null) =>
    edit(
      'Enter measured growth',
      (j) =>
        changeFace(j, face, {
          measuredGrowth: { ...measuredGrowth, [key]: percent === null ? null : percent / 100 },
        }),
      `growth ${key}`,
    );
  return (
    <>
      <Card title={`Mesh for each pull, ${face}`} wide>
        {inks.length === 0 && <p className="empty">A screen for each ink shows here once there are inks.</p>}
        <ul className="screens">
          {inks.map((ink, i) => (
            <li key={ink.id}>
              <span className="pull-number">{i + 1}</span>
              <span className="ink-drop" style={{ background: ink.hex }} />
              <b>{ink.name}</b>
              <NumberBox
                label={`Mesh of ${ink.name}`}
                hideLabel
                value={ink.meshPerCm}
                min={5}
                max={250}
                unit="threads/cm"
                onChange={(meshPerCm) =>
                  edit('Change mesh', (j) => changeInk(j, face, ink.id, { meshPerCm }), `mesh ${ink.id}`)
                }
              />
              <small>
                {Math.round(ink.meshPerCm * 2.54)} threads/in · {(10000 / ink.meshPerCm).toFixed(0)} µm from
                thread to thread
              </small>
            </li>
          ))}
        </ul>
      </Card>
      <Card title="Frame">
        <div className="measures">
          <Measure value={formatLength(press.frameLength, job.units)} label="inside, along the deck" />
          <Measure value={formatLength(press.offContact, job.units)} label="off-contact" />
        </div>
        <div className="fields">
          <LengthField
            label="Inside, along"
            value={press.frameLength}
            min={0}
            max={5000}
            step={10}
            onChange={(frameLength) => put('Change frame', { frameLength })}
          />
          <LengthField
            label="Inside, across"
            value={press.frameWidth}
            min={0}
            max={3000}
            step={10}
            onChange={(frameWidth) => put('Change frame', { frameWidth })}
          />
          <LengthField
            label="Off-contact"
            value={press.offContact}
            min={0}
            max={100}
            step={0.5}
            onChange={(offContact) => put('Change off-contact', { offContact })}
          />
        </div>
      </Card>
      <Card title={`Print grows, ${face}`}>
        <p className="hint">
          Mesh pressed down to the wood stretches, so the print is a little longer than its film. Films are
          made that much smaller.
        </p>
        <Toggle
          label="Correct films for it"
          on={press.compensateGrowth}
          onChange={(compensateGrowth) => put('Change growth correction', { compensateGrowth })}
        />
        {(['along', 'across'] as const).map((key) => (
          <div key={key} className="growth">
            <Toggle
              label={`Measured ${key} the deck`}
              on={measuredGrowth[key] !== null}
              onChange={(on) => grow(key, on ? 0 : null)}
            />
            {measuredGrowth[key] !== null && (
              <NumberBox
                label={`Growth ${key}`}
                hideLabel
                value={(measuredGrowth[key] ?? 0) * 100}
                min={-10}
                max={10}
                step={0.01}
                unit="%"
                digits={3}
                onChange={(n) => grow(key, n)}
              />
            )}
          </div>
        ))}
        <p className="hint">Not measured: estimated from frame and off-contact.</p>
      </Card>
    </>
  );
}
