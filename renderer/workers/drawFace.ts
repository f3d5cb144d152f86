import type { Face } from '../../core/deck/index.ts';
import { type DroppedPlace, droppedPlaces } from '../../core/droppedPlaces.ts';
import { type FacePreview, faceProof } from '../../core/facePreview.ts';
import type { Job } from '../../core/job/index.ts';
import { downsample, inkCount, type Picture } from '../../core/raster/index.ts';
import { type Box, MM_PER_INCH } from '../../core/units/index.ts';
import type { InkPair, Spread } from '../state/index.ts';
import { drawTraps } from './drawTraps.ts';
import { inkPicture } from './inkPicture.ts';

export interface ShowRequest {
  readonly job: Job;
  readonly face: Face;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly aloneId: string | null;
  /** What the ink alone is drawn in; null: its own colour. */
  readonly aloneHex: string | null;
  /** Spreads are wanted too: of one pair alone, or of all. */
  readonly traps: boolean;
  readonly pair: InkPair | null;
}

export interface GridProof {
  readonly veneerId: string;
  readonly colourwayId: string;
  readonly picture: ImageBitmap;
}

export interface ShowResult {
  /** Surface mm; row 0 of every picture is the top. */
  readonly box: Box;
  readonly proof: ImageBitmap;
  readonly alone: ImageBitmap | null;
  /** Only from the fine pass, as are the small pictures below. */
  readonly spreads: readonly Spread[] | null;
  /** Where most of the pair's spread lies, surface mm. */
  readonly places: readonly { readonly s: number; readonly t: number }[] | null;
  readonly veneers: readonly (readonly [string, ImageBitmap])[] | null;
  readonly prints:
    | readonly (readonly [string, { readonly picture: ImageBitmap; readonly cm2: number }])[]
    | null;
  /** Small proofs of every veneer in every colourway, where there are several; only from the fine pass. */
  readonly grid: readonly GridProof[] | null;
  /** Only from the fine pass. */
  readonly dropped: readonly DroppedPlace[] | null;
}

/** Points of a preview averaged into one of the proof, so that edges are smooth. */
const REDUCE = 2;
/** Points across a small picture. */
const SMALL = 430;
/** More proofs than this no one compares at once. */
const MOST_GRID = 60;

const imageOf = ({ data, width }: Picture) =>
  new ImageData(
    new Uint8ClampedArray(data.buffer as ArrayBuffer, data.byteOffset, data.length),
    width as number,
  );

/** The box that pictures reduced by `reduce` cover: whole squares may reach a little beyond the preview's own box. */
function reducedBox(preview: FacePreview, reduce: number): Box {
  const { box, width, height } = preview;
  const w = (Math.ceil(width / reduce) * reduce * box.width) / width;
  const h = (Math.ceil(height / reduce) * reduce * box.height) / height;
  return { x: box.x, y: box.y + box.height - h, width: w, height: h };
}

/** A face's pictures from its preview. `fine`: with everything that a quick look leaves out. */
export async function drawFace(
  preview: FacePreview,
  request: ShowRequest,
  fine: boolean,
): Promise<ShowResult> {
  const { job, face, colourwayId } = request;
  const { inks } = job.faces[face];
  const colours = job.colourways.find((c) => c.id === colourwayId)?.colours;
  const hexOf = (i: number) => colours?.[inks[i]!.id]?.hex ?? inks[i]!.hex;
  const proofOf = (veneerId: string, reduce: number) =>
    createImageBitmap(imageOf(faceProof({ job, face, preview, veneerId, colourwayId, reduce })));

  const proof = await proofOf(request.veneerId, REDUCE);
  const at = inks.findIndex((ink) => ink.id === request.aloneId);
  const lone = at >= 0 ? preview.prints[at] : undefined;
  const alone = lone
    ? await createImageBitmap(inkPicture(downsample(lone, REDUCE), request.aloneHex ?? hexOf(at)))
    : null;
  const box = reducedBox(preview, REDUCE);
  if (!fine)
    return {
      box,
      proof,
      alone,
      spreads: null,
      places: null,
      veneers: null,
      prints: null,
      grid: null,
      dropped: null,
    };

  const { spreads, places } = request.traps
    ? await drawTraps(preview, job.faces[face], hexOf, request.pair)
    : { spreads: [], places: [] };
  const reduce = Math.max(1, Math.floor(preview.width / SMALL));
  const veneers: [string, ImageBitmap][] = [];
  for (const veneer of job.veneers) veneers.push([veneer.id, await proofOf(veneer.id, reduce)]);
  const pixelCm2 = (MM_PER_INCH / preview.dpi / 10) ** 2;
  const prints: [string, { picture: ImageBitmap; cm2: number }][] = [];
  for (const [i, print] of preview.prints.entries()) {
    const picture = await createImageBitmap(inkPicture(downsample(print, reduce), hexOf(i)));
    prints.push([inks[i]!.id, { picture, cm2: inkCount(print) * pixelCm2 }]);
  }
  const grid: GridProof[] = [];
  if (job.colourways.length > 1 && job.colourways.length * job.veneers.length <= MOST_GRID)
    for (const { id: veneerId } of job.veneers)
      for (const { id: way } of job.colourways) {
        const small = faceProof({ job, face, preview, veneerId, colourwayId: way, reduce: 2 * reduce });
        grid.push({ veneerId, colourwayId: way, picture: await createImageBitmap(imageOf(small)) });
      }
  const dropped = droppedPlaces(job.faces[face], preview, preview.dropped ?? []);
  return { box, proof, alone, spreads, places, veneers, prints, grid, dropped };
}

/** The pictures of a result, which change hands rather than being copied. */
export const picturesOf = (r: ShowResult): ImageBitmap[] => [
  r.proof,
  ...(r.alone ? [r.alone] : []),
  ...(r.spreads ?? []).map((t) => t.picture),
  ...(r.veneers ?? []).map((v) => v[1]),
  ...(r.prints ?? []).map((p) => p[1].picture),
  ...(r.grid ?? []).map((g) => g.picture),
];
