import { OwnMeshSchema } from '../../core/job/index.ts';
import { type Mesh, meshFigures } from '../../core/press/index.ts';
import { Card, ThingTable } from '../bench/index.ts';
import { MESH_COLUMNS } from '../shop/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

/** The meshes of this job, by their makers' figures. */
export function OwnMeshesCard() {
  const job = useStudio((s) => s.job)!;
  const own = job.press.ownMeshes ?? [];
  return (
    <Card title="Mesh you have" wide>
      <ThingTable
        title="Meshes"
        one="a mesh"
        bare
        rows={own}
        columns={MESH_COLUMNS}
        fresh={{ countPerCm: 77, threadUm: 55 }}
        onChange={(rows) =>
          edit(
            'Change your meshes',
            (j) => changePress(j, { ownMeshes: rows.map((row) => OwnMeshSchema.parse(row)) }),
            'own meshes',
          )
        }
      />
      {own.map((mesh) => {
        const found = meshFigures(mesh as unknown as Mesh);
        const name = `${mesh.countPerCm}-${mesh.threadUm}`;
        return found.ok ? (
          <p className="hint" key={`${name} ${mesh.openingUm ?? ''}`}>
            {name}: opening {(found.value.result.opening * 1000).toFixed(0)} µm, holds{' '}
            {found.value.result.finestLine.toFixed(2)} mm, {found.value.result.inkVolume.toFixed(0)} cm³ of
            ink a m²
          </p>
        ) : (
          <p className="worked-trouble" key={`${name} ${mesh.openingUm ?? ''}`}>
            {name}: {found.reason}
          </p>
        );
      })}
      <p className="hint">
        Figures from your mesh maker’s sheet replace the formula’s. Leave at 0 what the sheet does not state.
        Mesh advice keeps to these once there are any; “Your shop” at Press keeps them for the next job.
      </p>
    </Card>
  );
}
