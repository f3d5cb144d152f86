import { type Art, cropToBox, withCrop } from '../../core/job/index.ts';
import type { Placed } from './artHandles.ts';

/** What a hand on the handles makes of a piece when it crops: the box it drew, in the piece's own frame, is what stays. */
export function cropped(piece: Art, placed: ReadonlyMap<string, Placed>): Map<string, Partial<Art>> {
  const box = placed.get(piece.id);
  if (!box) return new Map();
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const [dx, dy] = [box.x - piece.x, box.y - piece.y];
  const x = Math.cos(turn) * dx + Math.sin(turn) * dy;
  const y = Math.cos(turn) * dy - Math.sin(turn) * dx;
  const sides = {
    x0: x - box.width / 2,
    x1: x + box.width / 2,
    y0: y - box.height / 2,
    y1: y + box.height / 2,
  };
  return new Map([[piece.id, withCrop(piece, cropToBox(piece, sides))]]);
}
