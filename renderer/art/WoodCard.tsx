import type { Art } from '../../core/job/index.ts';
import { Card, Toggle } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';
import { back } from '../workers/index.ts';

/** Which colour of the art is bare wood. */
export function WoodCard({ piece }: { piece: Art }) {
  const face = useStudio((s) => s.face);
  const put = (ground: string | null) =>
    edit('Change bare wood', (j) => changeArt(j, face, piece.id, { ground }), `ground ${piece.id}`);
  const find = async (on: boolean) => put(on ? ((await back.ground(piece.hash)) ?? '#ffffff') : null);
  return (
    <Card title="Bare wood">
      <p className="hint">
        Transparent parts of the art never print. Art on a paper ground needs that colour left out too.
      </p>
      <Toggle label="Leave a colour out" on={piece.ground !== null} onChange={(on) => void find(on)} />
      {piece.ground !== null && (
        <label className="swatch-field">
          <input type="color" value={piece.ground} onChange={(e) => put(e.target.value)} />
          <span>
            {piece.ground}
            <small>is bare wood in this piece</small>
          </span>
        </label>
      )}
    </Card>
  );
}
