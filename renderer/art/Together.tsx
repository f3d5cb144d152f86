import type { Art } from '../../core/job/index.ts';
import { Card, Icon, LengthField } from '../bench/index.ts';
import { changeArt, edit, grouped, reflected, ungrouped, useStudio } from '../state/index.ts';
import { type Arrange, arranged } from './alignPieces.ts';
import { commonBox, moveTogether } from './commonBox.ts';
import { OrderRow } from './OrderRow.tsx';
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

/** Several pieces at once: placed by number, levelled to each other, spread evenly, grouped, mirrored, duplicated. */
export function Together() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const selection = useStudio((s) => s.selection);
  const chosen = job.faces[face].art.filter((a) => selection.includes(a.id));
  const box = commonBox(chosen);
  const put = (label: string, to: ReadonlyMap<string, Partial<Art>>, squash: string | null = null) =>
    edit(label, (j) => [...to].reduce((now, [id, change]) => changeArt(now, face, id, change), j), squash);
  const key = chosen.map((a) => a.id).join(' ');
  const group = chosen[0]?.group;
  const isGroup = group !== undefined && chosen.every((a) => a.group === group);
  const mirror = (way: 'along' | 'across') =>
    put('Mirror art', new Map(chosen.map((a) => [a.id, reflected(a, way, way === 'along' ? box.x : box.y)])));
  return (
    <Card title={isGroup ? `A group of ${chosen.length}` : `${chosen.length} pieces`}>
      <div className="fields">
        <LengthField
          label="Middle from mid-wheelbase"
          value={box.x}
          step={1}
          onChange={(x) => put('Move art', moveTogether(chosen, { x }), `together x ${key}`)}
        />
        <LengthField
          label="Middle from centreline"
          value={box.y}
          step={1}
          onChange={(y) => put('Move art', moveTogether(chosen, { y }), `together y ${key}`)}
        />
        <LengthField
          label="Width together"
          value={box.width}
          min={1}
          step={1}
          onChange={(width) =>
            put('Size art', moveTogether(chosen, { scale: width / box.width }), `together width ${key}`)
          }
        />
      </div>
      {ROWS.map((row) => (
        <div className="button-row" key={row[0]![0]}>
          {row.map(([how, label]) => (
            <button
              key={how}
              type="button"
              disabled={how.startsWith('spread') && chosen.length < 3}
              onClick={() => put(label, arranged(chosen, how))}
            >
              {label}
            </button>
          ))}
        </div>
      ))}
      <OrderRow ids={selection} />
      <div className="button-row">
        <button
          type="button"
          disabled={isGroup}
          onClick={() => edit('Group art', (j) => grouped(j, face, selection))}
        >
          Group
        </button>
        <button
          type="button"
          disabled={chosen.every((a) => a.group === undefined)}
          onClick={() => edit('Ungroup art', (j) => ungrouped(j, face, selection))}
        >
          Ungroup
        </button>
        <button type="button" onClick={() => mirror('along')}>
          <Icon name="mirror" /> Mirror nose to tail
        </button>
        <button type="button" onClick={() => mirror('across')}>
          Mirror rail to rail
        </button>
        <button type="button" onClick={() => duplicatePieces(selection)}>
          <Icon name="copy" /> Duplicate all
        </button>
      </div>
    </Card>
  );
}
