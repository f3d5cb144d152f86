import { checkJob, type FaceFacts, type PlacedArt, type Problem, type SheetFact } from './check/index.ts';
import { FACES, type Face, holesOnSurface, makeSurface } from './deck/index.ts';
import { droppedPlaces } from './droppedPlaces.ts';
import { type FaceMasks, faceMasks, type MaskTools, type PieceMask } from './faceMasks.ts';
import { refuseMethod } from './facePreview.ts';
import { layOutFace } from './film/index.ts';
import { type Art, artPxPerMm, type Job } from './job/index.ts';
import { layOutRequest } from './layOutRequest.ts';
import { done, type Outcome, type Ring } from './units/index.ts';

export interface CheckRequest extends MaskTools {
  readonly job: Job;
}

/** Fine enough to tell a 0.3 mm line from a 0.25 mm one, at half the cost of the film's own resolution. */
const CHECK_DPI = 400;

/** The piece's outline on the surface: its corners and points along its sides, since a plan piece bends with the wood. */
function ringOf(job: Job, face: Face, piece: Art): Ring {
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const surface = makeSurface(job.deck, face);
  const corners = [
    [-0.5, -0.5],
    [0.5, -0.5],
    [0.5, 0.5],
    [-0.5, 0.5],
  ] as const;
  const ring: [number, number][] = [];
  for (let side = 0; side < 4; side++) {
    const from = corners[side] as readonly [number, number];
    const to = corners[(side + 1) % 4] as readonly [number, number];
    for (let k = 0; k < 8; k++) {
      const lx = (from[0] + ((to[0] - from[0]) * k) / 8) * piece.width;
      const ly = (from[1] + ((to[1] - from[1]) * k) / 8) * piece.height;
      const x = piece.x + lx * Math.cos(turn) - ly * Math.sin(turn);
      const y = piece.y + lx * Math.sin(turn) + ly * Math.cos(turn);
      if (piece.wrap === 'surface') ring.push([x, y]);
      else {
        const { s, t } = surface.toSurface({ x, y });
        ring.push([s as number, t as number]);
      }
    }
  }
  return ring;
}

function placedArt(job: Job, face: Face, piece: Art, masks: PieceMask | undefined): PlacedArt {
  return {
    id: piece.id,
    name: piece.name,
    pxPerMm: artPxPerMm(piece),
    ring: ringOf(job, face, piece),
    inked: masks?.inked,
    unplanned: masks?.unplanned ?? [],
  };
}

/** Whether the face's films fit the printer's sheets; they share their marks, so they fit or fail together. */
function sheetFacts(job: Job, made: FaceMasks): SheetFact[] {
  const asked = layOutRequest(job, made);
  const laid = asked.ok ? layOutFace(asked.value) : asked;
  return job.faces[made.raster.face].inks.map((ink) => ({
    ink: ink.id,
    fits: laid.ok,
    reason: laid.ok ? null : laid.reason,
  }));
}

/** Every problem the job has, the worst first. Faces that can not be separated yet are checked by their settings alone. */
export async function makeCheck(request: CheckRequest): Promise<Outcome<Problem[]>> {
  const { job } = request;
  const faces: FaceFacts[] = [];
  for (const face of FACES) {
    const { art, inks } = job.faces[face];
    const shown = art.filter((piece) => !piece.hidden);
    if (shown.length === 0 || inks.length === 0 || !refuseMethod(job, face).ok) continue;
    const made = await faceMasks(job, face, CHECK_DPI, 'surface', request, true);
    if (!made.ok) return made;
    const { raster, separations, prints, printable, pieces, dropped } = made.value;
    faces.push({
      face,
      dpi: raster.dpi,
      box: raster.box,
      separations,
      prints,
      printable,
      art: shown.map((piece) =>
        placedArt(
          job,
          face,
          piece,
          pieces.find((p) => p.id === piece.id),
        ),
      ),
      sheets: sheetFacts(job, made.value),
      dropped: droppedPlaces(job.faces[face], raster, dropped),
      holes: holesOnSurface(job.deck, face).map(({ s, t }) => ({ s: s as number, t: t as number })),
    });
  }
  return done(checkJob({ job, faces }));
}
