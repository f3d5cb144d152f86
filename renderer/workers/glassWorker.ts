import * as Comlink from 'comlink';
import type { Face } from '../../core/deck/index.ts';
import { type FacePreview, faceProof } from '../../core/facePreview.ts';
import { faceWindow } from '../../core/faceWindow.ts';
import type { Job } from '../../core/job/index.ts';
import { crop, downsample, getBit, type Mask, type Picture } from '../../core/raster/index.ts';
import { refuseDots, TRIAL_DPI } from '../../core/trapTrials.ts';
import { type Box, done, type Outcome, toPx } from '../../core/units/index.ts';
import { inkPicture } from './inkPicture.ts';
import { PreviewCache } from './previewCache.ts';

/** One pull laid off its place, mm on the surface: `along` to the nose, `across` up. */
export interface MovedPull {
  readonly inkId: string;
  readonly along: number;
  readonly across: number;
}

export interface GlassRequest {
  readonly job: Job;
  readonly face: Face;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly moved: MovedPull | null;
  /** Surface mm. */
  readonly window: Box;
  /** One film in toner instead of the proof. */
  readonly filmId: string | null;
  /** Dots where an ink spreads beyond its separation are drawn as a chequer. */
  readonly spreads: boolean;
}

export type MovedRequest = Omit<GlassRequest, 'window' | 'filmId' | 'spreads'>;

export interface GlassPicture {
  readonly box: Box;
  readonly picture: ImageBitmap;
}

/** Dots an inch of the whole face when one pull is moved: as in the trials, so that both share one drawing. */
const MOVED_DPI = TRIAL_DPI;
const TONER = '#1c1712';

const pictures = new Map<string, Picture>();
const cache = new PreviewCache(pictures);

const bitmapOf = ({ data, width }: Picture) =>
  createImageBitmap(
    new ImageData(
      new Uint8ClampedArray(data.buffer as ArrayBuffer, data.byteOffset, data.length),
      width as number,
    ),
  );

/** A print moved by whole points; at film resolution a point is far below what a hand can tell. */
const shifted = (mask: Mask, { along, across }: MovedPull, dpi: number): Mask =>
  crop(
    mask,
    -Math.round(toPx(along, dpi)),
    Math.round(toPx(across, dpi)),
    mask.width as number,
    mask.height as number,
  );

/** The preview with one pull out of register. */
function withMoved(job: Job, face: Face, preview: FacePreview, moved: MovedPull | null): FacePreview {
  const at = job.faces[face].inks.findIndex((ink) => ink.id === moved?.inkId);
  if (!moved || at < 0) return preview;
  const swap = (masks: readonly Mask[]) =>
    masks.map((mask, i) => (i === at ? shifted(mask, moved, preview.dpi) : mask));
  return { ...preview, separations: swap(preview.separations), prints: swap(preview.prints) };
}

/** Lightens every other dot of what an ink prints beyond its separation. */
function chequer(picture: Picture, preview: FacePreview, inks: Job['faces'][Face]['inks']): void {
  const { data, width, height } = picture;
  for (const [i, print] of preview.prints.entries()) {
    // A base lies under everything; where it goes is no trap.
    if (inks[i]?.role !== 'colour') continue;
    const own = preview.separations[i]!;
    for (let y = 0; y < height; y++)
      for (let x = (y + i) % 2; x < width; x += 2) {
        if (!getBit(print, x, y) || getBit(own, x, y)) continue;
        const at = (y * width + x) * 4;
        for (let c = 0; c < 3; c++) data[at + c] = (data[at + c]! + 2 * 255) / 3;
      }
  }
}

const api = {
  setPicture(hash: string, picture: Picture): void {
    pictures.set(hash, picture);
  },
  forget(): void {
    pictures.clear();
    cache.clear();
  },

  /** A small window of the face at the films' own resolution. */
  async look(request: GlassRequest): Promise<Outcome<GlassPicture>> {
    const { job, face, veneerId, colourwayId, moved, filmId } = request;
    // A moved pull brings in what lies outside the window, by as much as it moved.
    const room = moved ? Math.max(Math.abs(moved.along), Math.abs(moved.across)) : 0;
    const { x, y, width, height } = request.window;
    const made = faceWindow({
      job,
      face,
      pictures,
      dpi: job.printer.dpi,
      window: { x: x - room, y: y - room, width: width + 2 * room, height: height + 2 * room },
      film: filmId !== null,
    });
    if (!made.ok) return made;
    const preview = withMoved(job, face, made.value, moved);
    const film = job.faces[face].inks.findIndex((ink) => ink.id === filmId);
    let picture: ImageBitmap;
    if (film >= 0) picture = await createImageBitmap(inkPicture(downsample(preview.prints[film]!, 1), TONER));
    else {
      const proof = faceProof({ job, face, preview, veneerId, colourwayId });
      if (request.spreads && !moved) chequer(proof, made.value, job.faces[face].inks);
      picture = await bitmapOf(proof);
    }
    return Comlink.transfer(done({ box: preview.box, picture }), [picture]);
  },

  /** The whole face with one pull out of register, for the board. */
  async moved({ job, face, veneerId, colourwayId, moved }: MovedRequest): Promise<Outcome<GlassPicture>> {
    const made = cache.get(job, face, MOVED_DPI, true);
    if (!made.ok) return made;
    const preview = withMoved(job, face, made.value, moved);
    const picture = await bitmapOf(faceProof({ job, face, preview, veneerId, colourwayId, reduce: 2 }));
    const { box, width, height } = preview;
    const k = { x: (Math.ceil(width / 2) * 2) / width, y: (Math.ceil(height / 2) * 2) / height };
    const h = box.height * k.y;
    return Comlink.transfer(
      done({ box: { x: box.x, y: box.y + box.height - h, width: box.width * k.x, height: h }, picture }),
      [picture],
    );
  },

  /** The face's separations for trials of register error, with their dots an inch. */
  separations(job: Job, face: Face): Outcome<{ readonly masks: readonly Mask[]; readonly dpi: number }> {
    const can = refuseDots(job, face);
    if (!can.ok) return can;
    const made = cache.get(job, face, MOVED_DPI, true);
    return made.ok ? done({ masks: made.value.separations, dpi: MOVED_DPI }) : made;
  },
};

export type GlassWorker = typeof api;
Comlink.expose(api);
