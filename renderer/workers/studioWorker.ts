import * as Comlink from 'comlink';
import type { Problem } from '../../core/check/index.ts';
import type { Face } from '../../core/deck/index.ts';
import type { FacePreview } from '../../core/facePreview.ts';
import type { Job } from '../../core/job/index.ts';
import { type MoireInput, moire } from '../../core/press/index.ts';
import { copyMask, halved, type Picture } from '../../core/raster/index.ts';
import { groundOf, suggestInks } from '../../core/separate/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { drawFace, picturesOf, type ShowRequest, type ShowResult } from './drawFace.ts';
import { FilmPlans } from './filmPlans.ts';
import { problemsOf } from './jobCheck.ts';
import { misfitMap } from './misfitMap.ts';
import { moireImage } from './moireImage.ts';
import { PreviewCache } from './previewCache.ts';
import type { NumberedPrints } from './sheetWorker.ts';

/** Dots an inch of a quick look, and of one that is looked at for longer. Pictures of a proof are half of each. */
const QUICK_DPI = 66;
const FINE_DPI = 132;

/** Longer side of art in a quick look, pixels: not much more than it shows. */
const QUICK_SIDE = 1300;

const pictures = new Map<string, Picture>();
const cache = new PreviewCache(pictures);
const plans = new FilmPlans();
/** Every preview whose prints were asked for has a number of its own. */
const numbers = new WeakMap<FacePreview, number>();
let given = 0;
/** The same art, smaller. */
const small = new Map<string, Picture>();
const quickCache = new PreviewCache(small);

const show = async (request: ShowRequest, fine: boolean): Promise<Outcome<ShowResult>> => {
  const made = fine
    ? cache.get(request.job, request.face, FINE_DPI, true)
    : quickCache.get(request.job, request.face, QUICK_DPI, false);
  if (!made.ok) return made;
  const result = await drawFace(made.value, request, fine);
  return Comlink.transfer(done(result), picturesOf(result));
};

const api = {
  setPicture(hash: string, picture: Picture): void {
    pictures.set(hash, picture);
    small.set(hash, Math.max(picture.width, picture.height) > QUICK_SIDE ? halved(picture) : picture);
  },
  forget(): void {
    for (const held of [pictures, small]) held.clear();
    for (const made of [cache, quickCache]) made.clear();
    plans.clear();
  },

  /** Pictures of one face for a moving hand: after a change of colours alone, the shapes from before it. */
  quick: (request: ShowRequest): Promise<Outcome<ShowResult>> => show(request, false),
  /** Pictures of one face as it is, with spreads and small pictures. */
  fine: (request: ShowRequest): Promise<Outcome<ShowResult>> => show(request, true),

  /** A face's prints, to be laid on sheets elsewhere: their number alone where it is the known one. */
  prints(job: Job, face: Face, known: number | null): Outcome<number | NumberedPrints> {
    const made = cache.get(job, face, FINE_DPI, true);
    if (!made.ok) return made;
    const number = numbers.get(made.value) ?? ++given;
    numbers.set(made.value, number);
    if (number === known) return done(number);
    const { box, width, height, dpi } = made.value;
    const prints = made.value.prints.map((mask) => copyMask(mask));
    return Comlink.transfer(
      done({ number, prints: { box, width, height, dpi, prints } }),
      prints.map(({ data }) => data.buffer as ArrayBuffer),
    );
  },

  /** What stands in the way of good films. */
  check(job: Job): Problem[] {
    return problemsOf(
      job,
      FINE_DPI,
      (face) => cache.get(job, face, FINE_DPI, true),
      (face, preview) => plans.get(job, face, preview),
    );
  },

  /** Where a flat film can not lie true on the face. */
  async misfit(job: Job, face: Face) {
    const { picture, ...rest } = misfitMap(job.deck, face, job.faces[face]);
    const bitmap = await createImageBitmap(picture);
    return Comlink.transfer({ ...rest, face, picture: bitmap }, [bitmap]);
  },

  /** How mesh and halftone beat, and a picture of it `side` mm square. */
  moire(input: MoireInput & { readonly threadUm: number }, side: number, points: number) {
    const beats = moire(input);
    return { beats, picture: beats.ok ? moireImage(input, side, points) : null };
  },

  /** Inks found in a piece of art. */
  suggest(hash: string, count: number | null, ground: string | null) {
    const picture = pictures.get(hash);
    return picture ? suggestInks(picture, count, { ground }) : [];
  },
  /** The colour of an even paper ground, or null. */
  ground(hash: string): string | null {
    const picture = pictures.get(hash);
    return picture ? groundOf(picture) : null;
  },
};

export type StudioWorker = typeof api;
Comlink.expose(api);
