import { Card, LengthField, Measure, NumberBox } from '../bench/index.ts';
import { changePress, edit, sealEdits, useStudio } from '../state/index.ts';

/** The press as it stands, and what the run takes. */
export function PressStation() {
  const job = useStudio((s) => s.job)!;
  const { press } = job;
  const put = (label: string, change: Partial<typeof press>) =>
    edit(label, (j) => changePress(j, change), `press ${Object.keys(change)}`);
  const decks = job.veneers.reduce((n, v) => n + v.decks, 0);
  const pulls = job.faces.bottom.inks.length + job.faces.top.inks.length;
  return (
    <>
      <Card title="The run">
        <div className="measures">
          <Measure value={String(decks)} label="decks" />
          <Measure value={String(pulls)} label="screens" />
          <Measure value={String(decks * pulls)} label="pulls in all" />
        </div>
        <ol className="order">
          {(['bottom', 'top'] as const).flatMap((face) =>
            job.faces[face].inks.map((ink, i) => (
              <li key={`${face} ${ink.id}`}>
                <span className="ink-drop" style={{ background: ink.hex }} /> {ink.name}
                <small>
                  {face}, pull {i + 1}
                </small>
              </li>
            )),
          )}
        </ol>
      </Card>
      <Card title="Squeegee and clamps">
        <div className="fields">
          <LengthField
            label="Blade length"
            value={press.blade}
            min={0}
            max={2000}
            step={5}
            large
            onChange={(blade) => put('Change blade', { blade })}
          />
          <LengthField
            label="A pull wanders by"
            hint="How far one pull lands from the last, by hand. Traps are judged against it."
            value={press.registerTolerance}
            min={0}
            max={10}
            step={0.05}
            large
            onChange={(registerTolerance) => put('Change register tolerance', { registerTolerance })}
          />
          <NumberBox
            label="Mesh may stretch"
            value={press.maxStretch * 100}
            min={0.1}
            max={20}
            step={0.1}
            unit="%"
            onChange={(n) => put('Change mesh stretch', { maxStretch: n / 100 })}
          />
        </div>
        <p className="hint caution">
          Inks, emulsion and cleaners can hurt: follow the makers’ safety data sheets, wear gloves and eye
          protection, keep air moving, and follow local rules for waste.
        </p>
      </Card>
      <Card title="Notes of the run">
        <div className="field">
          <label htmlFor="shop">Shop</label>
          <input
            id="shop"
            value={job.shop}
            maxLength={200}
            onChange={(e) => edit('Change shop', (j) => ({ ...j, shop: e.target.value }), 'shop')}
            onBlur={sealEdits}
          />
        </div>
        <div className="field">
          <label htmlFor="notes">Notes</label>
          <textarea
            id="notes"
            rows={6}
            value={job.notes}
            maxLength={20000}
            onChange={(e) => edit('Change notes', (j) => ({ ...j, notes: e.target.value }), 'notes')}
            onBlur={sealEdits}
          />
        </div>
      </Card>
    </>
  );
}
