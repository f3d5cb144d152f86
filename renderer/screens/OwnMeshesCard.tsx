import { useState } from 'react';
import { type Mesh, meshFigures } from '../../core/press/index.ts';
import { Card, NumberBox } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

/** The shop's own meshes, by the maker's figures. */
export function OwnMeshesCard() {
  const job = useStudio((s) => s.job)!;
  const own = job.press.ownMeshes ?? [];
  const [mesh, setMesh] = useState({ countPerCm: 77, threadUm: 55, openingUm: 0, thicknessUm: 0 });
  const entered = {
    countPerCm: mesh.countPerCm,
    threadUm: mesh.threadUm,
    ...(mesh.openingUm > 0 ? { openingUm: mesh.openingUm } : {}),
    ...(mesh.thicknessUm > 0 ? { thicknessUm: mesh.thicknessUm } : {}),
  };
  const figures = meshFigures(entered);
  const put = (key: keyof typeof mesh) => (n: number) => setMesh({ ...mesh, [key]: n });
  return (
    <Card title="Mesh you have">
      {own.length > 0 && (
        <table className="plain-table">
          <thead>
            <tr>
              <th>mesh</th>
              <th className="number">opening</th>
              <th className="number">ink, cm³/m²</th>
              <th />
            </tr>
          </thead>
          <tbody>
            {own.map((m, i) => {
              const f = meshFigures(m as unknown as Mesh);
              return (
                <tr key={`${m.countPerCm}-${m.threadUm}-${m.openingUm ?? ''}`}>
                  <td>
                    <b>
                      {m.countPerCm}-{m.threadUm}
                    </b>
                  </td>
                  <td className="number">
                    {f.ok ? `${(f.value.result.opening * 1000).toFixed(0)} µm` : '?'}
                  </td>
                  <td className="number">{f.ok ? f.value.result.inkVolume.toFixed(0) : '?'}</td>
                  <td>
                    <button
                      type="button"
                      onClick={() =>
                        edit('Remove mesh', (j) =>
                          changePress(j, { ownMeshes: own.filter((_, k) => k !== i) }),
                        )
                      }
                    >
                      Remove
                    </button>
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <div className="fields">
        <NumberBox
          label="Threads per cm"
          value={mesh.countPerCm}
          min={5}
          max={250}
          onChange={put('countPerCm')}
        />
        <NumberBox
          label="Thread"
          value={mesh.threadUm}
          min={5}
          max={2000}
          unit="µm"
          onChange={put('threadUm')}
        />
        <NumberBox
          label="Opening, if stated"
          value={mesh.openingUm}
          min={0}
          max={2000}
          unit="µm"
          onChange={put('openingUm')}
        />
        <NumberBox
          label="Fabric thickness, if stated"
          value={mesh.thicknessUm}
          min={0}
          max={4000}
          unit="µm"
          onChange={put('thicknessUm')}
        />
      </div>
      {figures.ok ? (
        <button
          type="button"
          onClick={() =>
            edit('Add mesh', (j) => changePress(j, { ownMeshes: [...(j.press.ownMeshes ?? []), entered] }))
          }
        >
          Add {mesh.countPerCm}-{mesh.threadUm}
        </button>
      ) : (
        <p className="worked-trouble">{figures.reason}</p>
      )}
      <p className="hint">
        Figures from your mesh maker’s sheet replace the formula’s. Leave at 0 what the sheet does not state.
      </p>
    </Card>
  );
}
