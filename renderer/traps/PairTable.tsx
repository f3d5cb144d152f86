import { type PairRule, trapPairs } from '../../core/trap/index.ts';
import { Pick } from '../bench/index.ts';
import { changeTraps, edit, formatLength, useStudio } from '../state/index.ts';
import { PairPlaces } from './PairPlaces.tsx';

/** Who spreads under whom, pair by pair: each can be looked at alone, and turned round, narrowed or kept butted. */
export function PairTable() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const pair = useStudio((s) => s.pair);
  const { traps, inks } = job.faces[face];
  const rules = trapPairs(inks, traps);
  const put = (a: string, b: string, spreads: 'rule' | 'a' | 'b' | 'none', width: number | null) =>
    edit(
      'Change a trap',
      (j) => {
        const others = j.faces[face].traps.pairs.filter(
          (p) => !(p.a === a && p.b === b) && !(p.a === b && p.b === a),
        );
        return changeTraps(j, face, {
          pairs: spreads === 'rule' ? others : [...others, { a, b, spreads, width }],
        });
      },
      `trap ${a} ${b}`,
    );
  const row = (rule: PairRule) => {
    const from = inks[rule.spreads]!;
    const under = inks[rule.under]!;
    const said = traps.pairs.findLast(
      (p) => (p.a === from.id && p.b === under.id) || (p.a === under.id && p.b === from.id),
    );
    const [a, b] = [said?.a ?? from.id, said?.b ?? under.id];
    const nameOf = (id: string) => inks.find((ink) => ink.id === id)?.name ?? id;
    const shown = pair?.spreads === from.id && pair.under === under.id;
    const both = `${from.name} under ${under.name}`;
    const line = (
      <tr key={`${from.id} ${under.id}`} className={shown ? 'pair-shown' : ''}>
        <td>
          <button
            type="button"
            className="pair-show"
            aria-pressed={shown}
            aria-label={`Show ${both} alone on the deck`}
            disabled={rule.widthMm === 0}
            onClick={() =>
              useStudio.setState({
                pair: shown ? null : { spreads: from.id, under: under.id },
                moved: null,
              })
            }
          >
            <span className="pair-ink">
              <span className="ink-drop" style={{ background: from.hex }} /> {from.name}
            </span>
          </button>
        </td>
        <td>
          <span className="pair-ink">
            <span className="ink-drop" style={{ background: under.hex }} /> {under.name}
          </span>
        </td>
        <td className="nowrap">{rule.widthMm > 0 ? formatLength(rule.widthMm, job.units, 2) : 'butted'}</td>
        <td>
          <small>{rule.why}</small>
        </td>
        <td>
          <Pick
            label={`Trap of ${from.name} and ${under.name}`}
            hideLabel
            value={said ? said.spreads : 'rule'}
            options={[
              { value: 'rule', label: 'by the rule' },
              { value: 'a', label: `${nameOf(a)} spreads` },
              { value: 'b', label: `${nameOf(b)} spreads` },
              { value: 'none', label: 'butted' },
            ]}
            onChange={(spreads) => put(a, b, spreads, said?.width ?? null)}
          />
          {said && said.spreads !== 'none' && (
            <Pick
              label={`Width of the trap of ${from.name} and ${under.name}`}
              hideLabel
              value={String(said.width ?? 'face')}
              options={[
                { value: 'face', label: `${formatLength(traps.width, job.units, 2)}, as all` },
                ...widthsBeside(traps.width, said.width).map((mm) => ({
                  value: String(mm),
                  label: formatLength(mm, job.units, 2),
                })),
              ]}
              onChange={(width) => put(a, b, said.spreads, width === 'face' ? null : Number(width))}
            />
          )}
        </td>
      </tr>
    );
    if (!shown) return [line];
    return [
      line,
      <tr key="places" className="pair-shown">
        <td colSpan={5}>
          <PairPlaces />
        </td>
      </tr>,
    ];
  };
  return (
    <>
      {rules.length === 0 && <p className="empty">Pairs show here once there are two inks.</p>}
      {rules.length > 0 && (
        <p className="hint">Press an ink’s name to see only that spread on the deck, close by.</p>
      )}
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
        <tbody>{rules.flatMap(row)}</tbody>
      </table>
    </>
  );
}

/** Widths offered for a pair of its own, mm, without the face's: the usual ones and the one it has. */
function widthsBeside(face: number, own: number | null): number[] {
  const usual = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.5];
  const all = own === null ? usual : [...usual, own];
  return [...new Set(all)].filter((mm) => mm !== face || mm === own).sort((x, y) => x - y);
}
