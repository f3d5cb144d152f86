import { inkAmount, meshFigures, USUAL } from '../../core/press/index.ts';
import { inkKey, inkUseOf, lotsOf, meshOf } from '../../core/runOf.ts';
import { Card, NumberBox } from '../bench/index.ts';
import { changePress, edit, freshMeasures, useStudio } from '../state/index.ts';

/** What the user can say of each ink, in the table's order. */
const FIELDS = [
  { key: 'passes', label: 'Strokes', head: 'strokes', min: 1, max: 50, step: 1, digits: 0, unit: '' },
  { key: 'potMl', label: 'Pot', head: 'pot', min: 1, max: 100_000, step: 1, digits: 2, unit: 'ml' },
  { key: 'density', label: 'Density', head: 'g/ml', min: 0.3, max: 8, step: 0.05, digits: 2, unit: '' },
  {
    key: 'price',
    label: 'Price of a pot',
    head: 'a pot costs',
    min: 0,
    max: 1e9,
    step: 1,
    digits: 2,
    unit: '',
  },
] as const;

/** Ink for each pull of the face over the run. */
export function InkAmounts() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const proofs = useStudio((s) => s.proofs);
  const measures = useStudio((s) => s.measures);
  const films = freshMeasures({ job, measures });
  const decks = lotsOf(job).reduce((n, lot) => n + lot.start, 0);
  const waste = job.press.waste ?? USUAL.waste.value;
  const { inks } = job.faces[face];
  let formula = '';
  let assumptions: readonly string[] = [];
  return (
    <Card title={`Ink for ${decks} decks, ${face}`} wide>
      <table className="plain-table">
        <thead>
          <tr>
            <th>ink</th>
            <th className="number">area</th>
            {FIELDS.map(({ key, head }) => (
              <th key={key}>{head}</th>
            ))}
            <th className="number">ml</th>
            <th className="number">g</th>
            <th className="number">pots</th>
          </tr>
        </thead>
        <tbody>
          {inks.map((ink) => {
            const film = films?.find((one) => one.face === face && one.inkId === ink.id);
            const cm2 =
              film?.inkedCm2 ?? (proofs?.face === face ? proofs.prints.get(ink.id)?.cm2 : undefined);
            const use = inkUseOf(job, face, ink);
            const figures = meshFigures(meshOf(job, face, ink));
            const found =
              figures.ok && cm2 !== undefined
                ? inkAmount({
                    ...use,
                    inkedCm2: cm2,
                    inkVolume: figures.value.result.inkVolume,
                    decks,
                    waste,
                  })
                : null;
            if (found?.ok) {
              formula = found.value.formula;
              assumptions = found.value.assumptions;
            }
            const put = (change: Partial<typeof use>) =>
              edit(
                'Change how an ink is used',
                (j) => {
                  const key = inkKey(face, ink);
                  const { price, ...rest } = { ...change };
                  const own = { ...j.press.inkUse?.[key], ...rest, ...(price == null ? {} : { price }) };
                  return changePress(j, { inkUse: { ...j.press.inkUse, [key]: own } });
                },
                `ink use ${ink.id} ${Object.keys(change)}`,
              );
            return (
              <tr key={ink.id}>
                <td>
                  <span className="ink-drop" style={{ background: ink.hex }} /> {ink.name}
                </td>
                <td className="number">{cm2 === undefined ? '…' : `${cm2.toFixed(0)} cm²`}</td>
                {FIELDS.map(({ key, label, min, max, step, digits, unit }) => (
                  <td key={key}>
                    <NumberBox
                      label={`${label} of ${ink.name}`}
                      hideLabel
                      value={use[key] ?? 0}
                      min={min}
                      max={max}
                      step={step}
                      digits={digits}
                      {...(unit === '' ? {} : { unit })}
                      onChange={(n) => put({ [key]: n })}
                    />
                  </td>
                ))}
                <td className="number">{found?.ok ? found.value.result.ml.toFixed(0) : '…'}</td>
                <td className="number">{found?.ok ? found.value.result.grams.toFixed(0) : '…'}</td>
                <td className="number">{found?.ok ? found.value.result.pots : '…'}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <NumberBox
        label="Lost in pot, mesh and cleaning"
        value={waste * 100}
        min={0}
        max={2000}
        unit="%"
        onChange={(n) => edit('Change ink waste', (j) => changePress(j, { waste: n / 100 }), 'waste')}
      />
      <details>
        <summary className="hint">Formula, and where the defaults come from</summary>
        <p className="formula">{formula}</p>
        <ul className="assumptions">
          {assumptions.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </details>
    </Card>
  );
}
