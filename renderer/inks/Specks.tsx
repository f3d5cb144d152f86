import type { DroppedPlace } from '../../core/droppedPlaces.ts';
import { Card, NumberBox, Toggle } from '../bench/index.ts';
import { changeFace, edit, useStudio } from '../state/index.ts';

/** Lines shown; the rest is counted. */
const MOST = 8;

/** What is too small for the mesh and was left out, where it lay, and the limit. */
export function Specks() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const dropped = useStudio((s) => (s.proofs?.face === s.face ? s.proofs.dropped : null));
  const marked = useStudio((s) => s.showDropped);
  const { smallest, inks, art, method } = job.faces[face];
  if (art.length === 0 || inks.length === 0 || method === 'index' || method === 'halftone') return null;
  const words = ({ ink, mm2 }: DroppedPlace) =>
    `${ink === null ? 'Hole filled' : `Speck of ${inks.find((i) => i.id === ink)?.name ?? 'an ink'}`}, ${mm2.toFixed(2)} mm²`;
  return (
    <Card title="Specks and holes">
      <NumberBox
        label="Smallest that is printed"
        value={smallest}
        unit="mm²"
        min={0}
        max={100}
        digits={3}
        onChange={(to) =>
          edit('Change smallest speck', (j) => changeFace(j, face, { smallest: to }), `smallest ${face}`)
        }
      />
      <p className="hint">
        What is smaller goes to the ink around it, for no mesh holds it. 0 keeps all; a protected ink keeps
        its own.
      </p>
      {dropped && dropped.length === 0 && <p className="hint">None here.</p>}
      {dropped && dropped.length > 0 && (
        <>
          <Toggle
            label={`Mark all ${dropped.length} on the deck`}
            on={marked}
            onChange={(on) => useStudio.setState({ showDropped: on })}
          />
          <ul className="specks" aria-label="Specks dropped and holes filled">
            {dropped.slice(0, MOST).map((place) => (
              <li key={`${place.s} ${place.t} ${place.ink}`}>
                <button
                  type="button"
                  onClick={() => useStudio.setState({ pointer: { s: place.s, t: place.t } })}
                >
                  <span
                    className="ink-drop"
                    style={{ background: inks.find((i) => i.id === place.ink)?.hex ?? 'var(--wood)' }}
                  />
                  {words(place)}
                </button>
              </li>
            ))}
          </ul>
          {dropped.length > MOST && <p className="hint">and {dropped.length - MOST} smaller ones</p>}
          <p className="hint">
            As the screen shows them: small ones may be fewer on the films. The command kickflat check counts
            them finely.
          </p>
        </>
      )}
    </Card>
  );
}
