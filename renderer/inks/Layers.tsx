import { type Art, LAYER_TAKES, type Layer } from '../../core/job/index.ts';
import { Card, Pick } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';

const TAKES_WORDS: Readonly<Record<(typeof LAYER_TAKES)[number], string>> = {
  alpha: 'What is drawn',
  darkness: 'What is dark',
};
const NONE = '';

/** Which ink each layer prints, and what of it is ink. */
export function Layers() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { art, inks, method } = job.faces[face];
  if (method !== 'layered') return null;
  const put = (piece: Art, change: Partial<Layer>) =>
    edit(
      'Change layer',
      (j) =>
        changeArt(j, face, piece.id, {
          layer: { ink: null, takes: 'alpha' as const, ...piece.layer, ...change },
        }),
      `layer ${piece.id}`,
    );
  const options = [
    { value: NONE, label: 'Prints nothing' },
    ...inks.map(({ id, name }) => ({ value: id, label: name })),
  ];
  return (
    <Card title="Layers and their inks">
      {art.length === 0 && <p className="empty">Drop a file in layers, or one file for each ink.</p>}
      <ul className="layers">
        {[...art].reverse().map((piece) => {
          const ink = inks.find(({ id }) => id === piece.layer?.ink);
          return (
            <li key={piece.id} className={piece.hidden ? 'layer layer-hidden' : 'layer'}>
              <span className="ink-drop" style={{ background: ink?.hex ?? 'transparent' }} />
              <b title={piece.name}>
                {piece.name}
                {piece.hidden && <small> hidden</small>}
              </b>
              <Pick
                label={`Ink of ${piece.name}`}
                hideLabel
                value={ink?.id ?? NONE}
                options={options}
                onChange={(id) => put(piece, { ink: id === NONE ? null : id })}
              />
              <Pick
                label={`What of ${piece.name} is ink`}
                hideLabel
                value={piece.layer?.takes ?? 'alpha'}
                options={LAYER_TAKES.map((value) => ({ value, label: TAKES_WORDS[value] }))}
                onChange={(takes) => put(piece, { takes })}
              />
            </li>
          );
        })}
      </ul>
      <p className="hint">
        Where layers overlap both inks print. Choose “What is dark” for plates, black ink on white paper: half
        dark is half inked.
      </p>
    </Card>
  );
}
