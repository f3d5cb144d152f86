import {
  type CheckInput,
  checkJob,
  type FaceFacts,
  type PlacedArt,
  type Problem,
} from '../../core/check/index.ts';
import { type Deck, FACES, type Face, holesOnSurface, makeSurface } from '../../core/deck/index.ts';
import { droppedPlaces, tellsSpecks } from '../../core/droppedPlaces.ts';
import type { FacePreview } from '../../core/facePreview.ts';
import { faceRaster, printableMask } from '../../core/faceRaster.ts';
import { type Art, artPxPerMm, type Job } from '../../core/job/index.ts';
import type { Outcome, Ring } from '../../core/units/index.ts';
import type { FilmPlanner } from './filmPlan.ts';

/** A piece's outline on the surface, mm; a piece that lies in plan is carried there point by point. */
export function artRing(deck: Deck, face: Face, piece: Art): Ring {
  const a = (piece.rotationDeg * Math.PI) / 180;
  const corners = [
    [-0.5, -0.5],
    [0.5, -0.5],
    [0.5, 0.5],
    [-0.5, 0.5],
  ] as const;
  const steps = piece.wrap === 'plan' ? 12 : 1;
  const surface = piece.wrap === 'plan' ? makeSurface(deck, face) : null;
  const ring: [number, number][] = [];
  corners.forEach(([u0, v0], i) => {
    const [u1, v1] = corners[(i + 1) % 4]!;
    for (let k = 0; k < steps; k++) {
      const u = (u0 + ((u1 - u0) * k) / steps) * piece.width;
      const v = (v0 + ((v1 - v0) * k) / steps) * piece.height;
      const x = piece.x + u * Math.cos(a) - v * Math.sin(a);
      const y = piece.y + u * Math.sin(a) + v * Math.cos(a);
      const at = surface ? surface.toSurface({ x, y }) : { s: x, t: y };
      ring.push([at.s, at.t]);
    }
  });
  return ring;
}

const placed = (deck: Deck, face: Face, piece: Art): PlacedArt => ({
  id: piece.id,
  name: piece.name,
  pxPerMm: artPxPerMm(piece),
  ring: artRing(deck, face, piece),
  unplanned: [],
});

/** The problems of a job as far as pictures at `dpi` can show them; films are checked again at their own. */
export function problemsOf(
  job: Job,
  dpi: number,
  previewOf: (face: Face) => Outcome<FacePreview>,
  plannerOf: (face: Face, preview: FacePreview) => Outcome<FilmPlanner>,
): Problem[] {
  const faces: FaceFacts[] = [];
  for (const face of FACES) {
    const { art, inks } = job.faces[face];
    if (art.length === 0) continue;
    const made = previewOf(face);
    if (!made.ok) continue;
    const { box, separations, prints, dropped = [] } = made.value;
    const raster = faceRaster(job.deck, face, dpi, { kind: 'surface' });
    const planner = plannerOf(face, made.value);
    faces.push({
      face,
      dpi,
      box,
      separations,
      prints,
      printable: printableMask(raster, job, null),
      art: art.filter((a) => !a.hidden).map((a) => placed(job.deck, face, a)),
      sheets: inks.map(({ id }) => ({
        ink: id,
        fits: planner.ok,
        reason: planner.ok ? null : planner.reason,
      })),
      // What the screen's points are too coarse to tell is left to the check of the films.
      dropped: tellsSpecks(job.faces[face], dpi) ? droppedPlaces(job.faces[face], { box, dpi }, dropped) : [],
      holes: holesOnSurface(job.deck, face).map(({ s, t }) => ({ s, t })),
    });
  }
  const input: CheckInput = { job, faces };
  return checkJob(input);
}
