import { trapPairs } from '../../core/trap/index.ts';
import { Card, LengthField, Pick } from '../bench/index.ts';
import { changeTraps, edit, formatLength, useStudio } from '../state/index.ts';
import { GapCard } from './GapCard.tsx';
import { MovePull } from './MovePull.tsx';

/** Who spreads under whom, by how much, and how far the base stays inside. */
export function TrapsStation() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { traps, inks } = job.faces[face];
  const rules = trapPairs(inks, traps);
  const choose = (a: string, b: string, spreads: 'rule' | 'a' | 'b' | 'none') =>
    edit('Change a trap', (j) => {
      const others = j.faces[face].traps.pairs.filter(
        (p) => !(p.a === a && p.b === b) && !(p.a === b && p.b === a),
      );
      return changeTraps(j, face, {
        pairs: spreads === 'rule' ? others : [...others, { a, b, spreads, width: null }],
      });
    });
  return (
    <>
      <Card title="Widths">
        <p className="hint">
          A screen moves by a fraction of a millimetre between pulls. Traps keep wood from showing where two
          inks meet.
        </p>
        <div className="fields">
          <LengthField
            label="Trap, light under dark"
            value={traps.width}
            min={0}
            max={10}
            step={0.05}
            large
            onChange={(width) =>
              edit('Change trap width', (j) => changeTraps(j, face, { width }), 'trap width')
            }
          />
          <LengthField
            label="Base stays inside by"
            value={traps.choke}
            min={0}
            max={10}
            step={0.05}
            large
            onChange={(choke) => edit('Change choke', (j) => changeTraps(j, face, { choke }), 'choke')}
          />
          <LengthField
            label="Finest line the screens hold"
            value={traps.narrowestLine}
            min={0}
            max={5}
            step={0.05}
            onChange={(narrowestLine) =>
              edit('Change finest line', (j) => changeTraps(j, face, { narrowestLine }), 'narrowest')
            }
          />
        </div>
      </Card>
      <Card title="Who spreads under whom" wide>
        {rules.length === 0 && <p className="empty">Pairs show here once there are two inks.</p>}
        <table className="pairs">
          <thead>
            <tr>
              <th scope="col">Spreads</th>
              <th scope="col">under</th>
              <th scope="col">by</th>
              <th scope="col">why</th>
              <th scope="col">instead</th>
            </tr>
          </thead>
          <tbody>
            {rules.map((rule) => {
              const from = inks[rule.spreads]!;
              const under = inks[rule.under]!;
              const override = traps.pairs.find(
                (p) => (p.a === from.id && p.b === under.id) || (p.a === under.id && p.b === from.id),
              );
              return (
                <tr key={`${from.id} ${under.id}`}>
                  <td>
                    <span className="pair-ink">
                      <span className="ink-drop" style={{ background: from.hex }} /> {from.name}
                    </span>
                  </td>
                  <td>
                    <span className="pair-ink">
                      <span className="ink-drop" style={{ background: under.hex }} /> {under.name}
                    </span>
                  </td>
                  <td className="nowrap">
                    {rule.widthMm > 0 ? formatLength(rule.widthMm, job.units, 2) : 'butted'}
                  </td>
                  <td>
                    <small>{rule.why}</small>
                  </td>
                  <td>
                    <Pick
                      label={`Trap of ${from.name} and ${under.name}`}
                      hideLabel
                      value={override ? override.spreads : 'rule'}
                      options={[
                        { value: 'rule', label: 'by the rule' },
                        {
                          value: 'a',
                          label: `${inks.find((i) => i.id === (override?.a ?? from.id))?.name} spreads`,
                        },
                        {
                          value: 'b',
                          label: `${inks.find((i) => i.id === (override?.b ?? under.id))?.name} spreads`,
                        },
                        { value: 'none', label: 'butted' },
                      ]}
                      onChange={(s) => choose(override?.a ?? from.id, override?.b ?? under.id, s)}
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </Card>
      <MovePull />
      <GapCard />
      <Card title="On the deck">
        <p className="hint">
          Spreads are hatched in the colour of the ink that spreads; each ink has its own hatch. Zoom in to
          see them at the border.
        </p>
        <ul className="found">
          {inks.map((ink, i) => (
            <li key={ink.id}>
              <span className={`hatch hatch-${i % 6}`} style={{ color: ink.hex }} />
              <b>{ink.name}</b>
              <small>
                {ink.role === 'base' ? `stays inside by ${formatLength(traps.choke, job.units, 2)}` : ''}
              </small>
            </li>
          ))}
        </ul>
      </Card>
    </>
  );
}
