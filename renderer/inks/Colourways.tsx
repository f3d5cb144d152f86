import { useMemo } from 'react';
import { runAdvice } from '../../core/check/index.ts';
import { idFrom } from '../../core/job/index.ts';
import { Card, Icon } from '../bench/index.ts';
import { changeColourway, edit, inkColour, sealEdits, useStudio } from '../state/index.ts';

/** Other inks through the same films. */
export function Colourways() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const chosenId = useStudio((s) => s.colourwayId);
  const chosen = job.colourways.find((c) => c.id === chosenId);
  const { inks } = job.faces[face];
  const first = job.colourways[0];
  const advice = useMemo(() => runAdvice(job, job.faces[face]), [job, face]);
  const add = () => {
    const id = idFrom(
      'colourway',
      job.colourways.map((c) => c.id),
    );
    const own = first ? [] : [{ id: 'as-drawn', name: 'As drawn', colours: {} }];
    edit('Add a colourway', (j) => ({
      ...j,
      colourways: [
        ...j.colourways,
        ...own,
        { id, name: `Colourway ${j.colourways.length + own.length + 1}`, colours: {} },
      ],
    }));
    useStudio.setState({ colourwayId: id });
  };
  const recolour = (inkId: string, hex: string) => {
    if (!chosen) return;
    const ink = inks.find((i) => i.id === inkId)!;
    const colours = {
      ...chosen.colours,
      [inkId]: { name: chosen.colours[inkId]?.name ?? `${ink.name} ${chosen.name}`, hex },
    };
    edit('Change colourway', (j) => changeColourway(j, chosen.id, { colours }), `colourway ${inkId}`);
  };
  const restore = (inkId: string) => {
    if (!chosen) return;
    const colours = { ...chosen.colours };
    delete colours[inkId];
    edit('Change colourway', (j) => changeColourway(j, chosen.id, { colours }));
  };
  return (
    <Card
      title="Colourways"
      action={
        <button type="button" className="tape-button" onClick={add}>
          <Icon name="plus" /> Colourway
        </button>
      }
    >
      <p className="hint">The same films, other inks in the screens.</p>
      <ul className="ways">
        {(first ? job.colourways : [{ id: '', name: 'As drawn' }]).map((c, i) => {
          const on = i === 0 ? chosenId === null || chosenId === c.id : chosenId === c.id;
          return (
            <li key={c.id}>
              <button
                type="button"
                aria-pressed={on}
                onClick={() => useStudio.setState({ colourwayId: i === 0 ? null : c.id })}
              >
                <span className="way-drops">
                  {inks.map((ink) => (
                    <span
                      key={ink.id}
                      className="ink-drop"
                      style={{ background: inkColour(job, ink, i === 0 ? null : c.id).hex }}
                    />
                  ))}
                </span>
                {c.name}
              </button>
            </li>
          );
        })}
      </ul>
      {advice.length > 0 && (
        <ul className="advice" aria-label="What veneers and colourways ask">
          {advice.map(({ ink, what, mend, looks }) => (
            <li key={`${ink} ${what}`}>
              <button type="button" onClick={() => useStudio.setState({ inkId: ink })}>
                {looks && <Turn {...looks} />}
                <span>
                  {what} <small>{mend}</small>
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {chosen && chosen !== first && (
        <>
          <div className="field">
            <label htmlFor="way-name">Name</label>
            <input
              id="way-name"
              value={chosen.name}
              maxLength={120}
              onChange={(e) =>
                e.target.value.trim() &&
                edit(
                  'Rename colourway',
                  (j) => changeColourway(j, chosen.id, { name: e.target.value }),
                  'way name',
                )
              }
              onBlur={sealEdits}
            />
          </div>
          <ul className="way-inks">
            {inks.map((ink) => {
              const other = chosen.colours[ink.id];
              return (
                <li key={ink.id}>
                  <input
                    type="color"
                    aria-label={`${ink.name} in ${chosen.name}`}
                    value={other?.hex ?? ink.hex}
                    onChange={(e) => recolour(ink.id, e.target.value)}
                    onBlur={sealEdits}
                  />
                  <span>{other?.name ?? ink.name}</span>
                  {other && (
                    <button
                      type="button"
                      onClick={() => restore(ink.id)}
                      aria-label={`Give ${ink.name} its own colour back`}
                    >
                      <Icon name="undo" />
                    </button>
                  )}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </Card>
  );
}

/** An ink's own colour, and beside it what the eye will see of it on a veneer. */
function Turn({ own, there, on }: { own: string; there: string; on: string }) {
  return (
    <span className="turn" role="img" aria-label={`${own} looks like ${there} on ${on}`}>
      <span className="ink-drop" style={{ background: own }} />
      <span aria-hidden="true">→</span>
      <span className="ink-drop" style={{ background: there }} />
    </span>
  );
}
