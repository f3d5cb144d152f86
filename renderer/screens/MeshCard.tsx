import { adviseMesh, MESH_TABLE, type Mesh } from '../../core/press/index.ts';
import { inkKey, meshOf } from '../../core/runOf.ts';
import { Card, NumberBox, Pick } from '../bench/index.ts';
import { changeInk, changePress, edit, useStudio } from '../state/index.ts';

const keyOf = (mesh: Mesh) => `${mesh.countPerCm}-${mesh.threadUm}`;

/** The mesh of each pull and what it holds. */
export function MeshCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { inks, method, traps } = job.faces[face];
  const stock: readonly Mesh[] = [...((job.press.ownMeshes ?? []) as unknown as Mesh[]), ...MESH_TABLE];
  return (
    <Card title={`Mesh for each pull, ${face}`} wide>
      {inks.length === 0 && <p className="empty">A screen for each ink shows here once there are inks.</p>}
      <ul className="mesh-list">
        {inks.map((ink, i) => {
          const mesh = meshOf(job, face, ink);
          // Traps are the finest lines the program itself draws; the art's own are measured on the films.
          const line = ink.role === 'base' ? traps.narrowestLine : traps.width > 0 ? traps.width : null;
          const found = adviseMesh({ line, gap: null, kind: ink.kind, chosen: mesh });
          const choose = (key: string) => {
            const chosen = stock.find((m) => keyOf(m) === key);
            if (!chosen) return;
            edit('Change mesh', (j) => {
              const changed = changeInk(j, face, ink.id, { meshPerCm: chosen.countPerCm });
              const key = inkKey(face, ink);
              const inkUse = {
                ...j.press.inkUse,
                [key]: { ...j.press.inkUse?.[key], threadUm: chosen.threadUm },
              };
              return changePress(changed, { inkUse });
            });
          };
          const options = stock
            .filter((m, at) => stock.findIndex((o) => keyOf(o) === keyOf(m)) === at)
            .map((m) => ({ value: keyOf(m), label: `${m.countPerCm}-${m.threadUm}` }));
          if (!options.some((o) => o.value === keyOf(mesh)))
            options.unshift({ value: keyOf(mesh), label: `${keyOf(mesh)}, own count` });
          return (
            <li key={ink.id}>
              <span className="pull-number">{i + 1}</span>
              <span className="ink-drop" style={{ background: ink.hex }} />
              <b>{ink.name}</b>
              <Pick
                label={`Mesh of ${ink.name}`}
                hideLabel
                value={keyOf(mesh)}
                options={options}
                onChange={choose}
              />
              <NumberBox
                label={`Count of ${ink.name}`}
                hideLabel
                value={ink.meshPerCm}
                min={5}
                max={250}
                unit="/cm"
                onChange={(meshPerCm) =>
                  edit('Change mesh', (j) => changeInk(j, face, ink.id, { meshPerCm }), `mesh ${ink.id}`)
                }
              />
              {found.ok ? (
                <>
                  <p>
                    {Math.round(ink.meshPerCm * 2.54)} threads/in · opening{' '}
                    {(found.value.result.chosen.figures.opening * 1000).toFixed(0)} µm · holds lines and gaps
                    of {found.value.result.chosen.figures.finestLine.toFixed(2)} mm ·{' '}
                    {found.value.result.chosen.figures.inkVolume.toFixed(0)} cm³ of ink a m²
                  </p>
                  {found.value.result.warnings.map((words) => (
                    <p key={words} className="not-held">
                      {words}{' '}
                      {found.value.result.good[0]
                        ? `Thickest that holds all: ${keyOf(found.value.result.good[0])}.`
                        : 'No mesh listed holds all.'}
                    </p>
                  ))}
                </>
              ) : (
                <p className="not-held">
                  {found.reason} {found.mend}
                </p>
              )}
            </li>
          );
        })}
      </ul>
      <p className="hint">
        Judged here by ink kind and the finest trap{method === 'halftone' ? '' : ' or base line'}. The run
        sheet measures every film’s finest lines and gaps at film resolution and rings what its mesh can not
        hold. Mesh 77-55: 77 threads a cm, 55 µm thick; both stand on the mesh’s edge.
      </p>
    </Card>
  );
}
