import { idFrom } from '../../core/job/index.ts';
import { Card, Icon, NumberBox } from '../bench/index.ts';
import { changeVeneer, edit, sealEdits, useStudio } from '../state/index.ts';

/** The wood the run is printed on, and how many decks of each. */
export function Veneers() {
  const job = useStudio((s) => s.job)!;
  const total = job.veneers.reduce((n, v) => n + v.decks, 0);
  const add = () =>
    edit('Add a veneer', (j) => {
      const id = idFrom(
        'stain',
        j.veneers.map((v) => v.id),
      );
      return {
        ...j,
        veneers: [...j.veneers, { id, name: `Stain ${j.veneers.length}`, hex: '#7d6a55', decks: 6 }],
      };
    });
  const remove = (id: string) =>
    edit('Remove a veneer', (j) => {
      const bare = (face: typeof j.faces.bottom) => ({
        ...face,
        inks: face.inks.map((i) =>
          i.needsBase === 'all' ? i : { ...i, needsBase: i.needsBase.filter((v) => v !== id) },
        ),
      });
      return {
        ...j,
        veneers: j.veneers.filter((v) => v.id !== id),
        faces: { ...j.faces, bottom: bare(j.faces.bottom), top: bare(j.faces.top) },
      };
    });
  return (
    <Card
      title={`Veneers: ${total} decks`}
      action={
        <button type="button" className="tape-button" onClick={add}>
          <Icon name="plus" /> Veneer
        </button>
      }
    >
      <ul className="veneers">
        {job.veneers.map((v) => (
          <li key={v.id}>
            <input
              type="color"
              aria-label={`Colour of ${v.name}`}
              value={v.hex}
              onChange={(e) =>
                edit(
                  'Change veneer colour',
                  (j) => changeVeneer(j, v.id, { hex: e.target.value }),
                  `veneer ${v.id}`,
                )
              }
              onBlur={sealEdits}
            />
            <input
              aria-label="Veneer name"
              value={v.name}
              maxLength={120}
              onChange={(e) =>
                e.target.value.trim() &&
                edit(
                  'Rename veneer',
                  (j) => changeVeneer(j, v.id, { name: e.target.value }),
                  `veneer name ${v.id}`,
                )
              }
              onBlur={sealEdits}
            />
            <NumberBox
              label={`Decks of ${v.name}`}
              hideLabel
              value={v.decks}
              min={0}
              max={10000}
              digits={0}
              onChange={(decks) =>
                edit('Change number of decks', (j) => changeVeneer(j, v.id, { decks }), `decks ${v.id}`)
              }
            />
            <button
              type="button"
              aria-label={`Remove ${v.name}`}
              disabled={job.veneers.length === 1}
              onClick={() => {
                remove(v.id);
                useStudio.setState({ veneerId: null });
              }}
            >
              <Icon name="bin" />
            </button>
          </li>
        ))}
      </ul>
    </Card>
  );
}
