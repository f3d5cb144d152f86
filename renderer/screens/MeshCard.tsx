import { MESH_TABLE, type Mesh } from '../../core/press/index.ts';
import { Card } from '../bench/index.ts';
import { freshMeasures, useStudio } from '../state/index.ts';
import { MeshRow } from './MeshRow.tsx';

/** The mesh of each pull and what it holds. */
export function MeshCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const measures = useStudio((s) => s.measures);
  const films = freshMeasures({ job, measures });
  const { inks } = job.faces[face];
  const own = (job.press.ownMeshes ?? []) as unknown as readonly Mesh[];
  return (
    <Card title={`Mesh for each pull, ${face}`} wide>
      {inks.length === 0 && <p className="empty">A screen for each ink shows here once there are inks.</p>}
      <ul className="mesh-list">
        {inks.map((ink, i) => (
          <MeshRow
            key={ink.id}
            face={face}
            ink={ink}
            pull={i + 1}
            own={own}
            stock={[...own, ...MESH_TABLE]}
            measure={films?.find((film) => film.face === face && film.inkId === ink.id)}
          />
        ))}
      </ul>
      <p className="hint">
        {films
          ? 'Press an ink’s name to see on the deck where its film is fine.'
          : 'Judged by ink kind and the finest trap until the films are measured.'}{' '}
        Mesh 77-55: 77 threads a cm, 55 µm thick; both stand on the mesh’s edge.
      </p>
    </Card>
  );
}
