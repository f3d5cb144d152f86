import { Card } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';
import { type Arrange, arranged } from './alignPieces.ts';
import { duplicatePieces } from './pieceCopies.ts';

const ROWS: readonly (readonly (readonly [Arrange, string])[])[] = [
  [
    ['tail', 'Tail ends level'],
    ['middle', 'Middles level'],
    ['nose', 'Nose ends level'],
  ],
  [
    ['up', 'Upper edges level'],
    ['centre', 'Centres level'],
    ['down', 'Lower edges level'],
  ],
  [
    ['spread along', 'Even gaps along'],
    ['spread across', 'Even gaps across'],
  ],
];

/** Several pieces at once: levelled to each other, spread evenly, duplicated. */
export function Together() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const selection = useStudio((s) => s.selection);
  const chosen = job.faces[face].art.filter((a) => selection.includes(a.id));
  const arrange = (how: Arrange, label: string) => {
    const to = arranged(chosen, how);
    edit(label, (j) => [...to].reduce((now, [id, change]) => changeArt(now, face, id, change), j));
  };
  return (
    <Card title={`${chosen.length} pieces`}>
      {ROWS.map((row) => (
        <div className="button-row" key={row[0]![0]}>
          {row.map(([how, label]) => (
            <button
              key={how}
              type="button"
              disabled={how.startsWith('spread') && chosen.length < 3}
              onClick={() => arrange(how, label)}
            >
              {label}
            </button>
          ))}
        </div>
      ))}
      <div className="button-row">
        <button type="button" onClick={() => duplicatePieces(selection)}>
          Duplicate all
        </button>
      </div>
    </Card>
  );
}
