import type { Face } from '../../core/deck/index.ts';
import type { Ink } from '../../core/job/index.ts';
import { adviseMesh, type FilmMeasure, type Mesh } from '../../core/press/index.ts';
import { inkKey, meshOf } from '../../core/runOf.ts';
import { NumberBox, Pick } from '../bench/index.ts';
import { changeInk, changePress, edit, useStudio } from '../state/index.ts';

const keyOf = (mesh: Mesh) => `${mesh.countPerCm}-${mesh.threadUm}`;
const width = (mm: number | null) => (mm === null ? 'none under 0.5 mm' : `${mm.toFixed(2)} mm`);

/** One pull's mesh: which, what it holds, and whether that is enough for its film. */
export function MeshRow({
  face,
  ink,
  pull,
  stock,
  own,
  measure,
}: {
  face: Face;
  ink: Ink;
  pull: number;
  /** All meshes that can be chosen. */
  stock: readonly Mesh[];
  /** The shop's own; advice keeps to them where there are any. */
  own: readonly Mesh[];
  /** Its real film, when it was measured. */
  measure: FilmMeasure | undefined;
}) {
  const job = useStudio((s) => s.job)!;
  const chosenId = useStudio((s) => s.inkId);
  const { inks } = job.faces[face];
  const chosenHere = inks.some((one) => one.id === chosenId) ? chosenId === ink.id : pull === 1;
  const { traps, method, halftone } = job.faces[face];
  const mesh = meshOf(job, face, ink);
  // Until the film is measured, traps are the finest lines that are known of: the program draws them itself.
  const guess = ink.role === 'base' ? traps.narrowestLine : traps.width > 0 ? traps.width : null;
  const found = adviseMesh({
    line: measure ? measure.line : guess,
    gap: measure ? measure.gap : null,
    kind: ink.kind,
    chosen: mesh,
    ...(method === 'halftone' && halftone ? { lpi: halftone.lpi } : {}),
    ...(own.length > 0 ? { stock: own } : {}),
  });
  const choose = (key: string) => {
    const chosen = stock.find((m) => keyOf(m) === key);
    if (!chosen) return;
    edit('Change mesh', (j) => {
      const changed = changeInk(j, face, ink.id, { meshPerCm: chosen.countPerCm });
      const at = inkKey(face, ink);
      const inkUse = { ...j.press.inkUse, [at]: { ...j.press.inkUse?.[at], threadUm: chosen.threadUm } };
      return changePress(changed, { inkUse });
    });
  };
  const options = stock
    .filter((m, at) => stock.findIndex((o) => keyOf(o) === keyOf(m)) === at)
    .map((m) => ({ value: keyOf(m), label: keyOf(m) }));
  if (!options.some((o) => o.value === keyOf(mesh)))
    options.unshift({ value: keyOf(mesh), label: `${keyOf(mesh)}, own count` });
  return (
    <li className={chosenHere ? 'mesh-shown' : ''}>
      <span className="pull-number">{pull}</span>
      <span className="ink-drop" style={{ background: ink.hex }} />
      <button
        type="button"
        className="mesh-name"
        aria-pressed={chosenHere}
        title="Show this film on the deck"
        onClick={() => useStudio.setState({ inkId: ink.id })}
      >
        {ink.name}
      </button>
      <Pick label={`Mesh of ${ink.name}`} hideLabel value={keyOf(mesh)} options={options} onChange={choose} />
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
      {measure && (
        <p>
          On the film: finest line {width(measure.line)}, finest gap {width(measure.gap)}.
        </p>
      )}
      {found.ok ? (
        <>
          <p>
            {Math.round(ink.meshPerCm * 2.54)} threads/in · opening{' '}
            {(found.value.result.chosen.figures.opening * 1000).toFixed(0)} µm · holds lines and gaps of{' '}
            {found.value.result.chosen.figures.finestLine.toFixed(2)} mm ·{' '}
            {found.value.result.chosen.figures.inkVolume.toFixed(0)} cm³ of ink a m²
          </p>
          {found.value.result.warnings.map((words) => (
            <p key={words} className="not-held">
              {words}{' '}
              {found.value.result.good[0]
                ? `Thickest ink that holds all: ${keyOf(found.value.result.good[0])}.`
                : `None of ${own.length > 0 ? 'your' : 'the listed'} meshes holds all of it: thicken what is fine.`}
            </p>
          ))}
          {measure && found.value.result.warnings.length === 0 && (
            <p className="held">This mesh holds all of it.</p>
          )}
        </>
      ) : (
        <p className="not-held">
          {found.reason} {found.mend}
        </p>
      )}
    </li>
  );
}
