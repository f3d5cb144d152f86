import { type Face, makeSurface, printableRings } from '../../core/deck/index.ts';
import { type Art, type Crop, cropToBox, type Job } from '../../core/job/index.ts';

/** The crop that cuts a piece down to the upright box about the printable area, in the piece's own turned frame. */
export function cropToPrint(job: Job, face: Face, piece: Art): Crop {
  const { railMargin } = job.faces[face];
  const [rim] = printableRings(job.deck, face, { railMargin, clearHoles: 0, reach: null });
  const surface = piece.wrap === 'plan' ? makeSurface(job.deck, face) : null;
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [s, t] of rim ?? []) {
    const at = surface ? surface.toPlan({ s, t }) : { x: s, y: t };
    const [dx, dy] = [at.x - piece.x, at.y - piece.y];
    const [x, y] = [cos * dx + sin * dy, cos * dy - sin * dx];
    box.x0 = Math.min(box.x0, x);
    box.x1 = Math.max(box.x1, x);
    box.y0 = Math.min(box.y0, y);
    box.y1 = Math.max(box.y1, y);
  }
  // The rim lies wholly inside what is cut to: only what sticks out goes.
  return cropToBox(piece, {
    x0: Math.max(box.x0, -piece.width / 2),
    y0: Math.max(box.y0, -piece.height / 2),
    x1: Math.min(box.x1, piece.width / 2),
    y1: Math.min(box.y1, piece.height / 2),
  });
}
