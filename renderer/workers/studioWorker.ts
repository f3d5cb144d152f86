import * as Comlink from 'comlink';
import type { Face } from '../../core/deck/index.ts';
import { type FacePreview, facePreview, faceProof } from '../../core/facePreview.ts';
import { type Job, type JobFile, packJob, unpackJob } from '../../core/job/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { groundOf, suggestInks } from '../../core/separate/index.ts';
import { type Box, done, MM_PER_INCH, type Outcome } from '../../core/units/index.ts';
import { type PlannedFilms, planFilms } from './filmPlan.ts';
import { inked, inkPicture, spreadPicture } from './inkPicture.ts';
import { misfitPicture } from './misfitPicture.ts';

/** Where one ink spreads under others: opaque there, clear elsewhere. */
interface Spread {
  readonly hex: string;
  readonly kind: number;
  readonly picture: ImageBitmap;
}

export interface ShowRequest {
  readonly job: Job;
  readonly face: Face;
  readonly dpi: number;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly aloneId: string | null;
  /** What the ink alone is drawn in; null: its own colour. */
  readonly aloneHex: string | null;
  /** Hatched spreads are wanted too. */
  readonly traps: boolean;
  /** Small proofs and prints are wanted too; a drag leaves them out. */
  readonly small: boolean;
}

export interface ShowResult {
  readonly box: Box;
  readonly proof: ImageBitmap;
  readonly alone: ImageBitmap | null;
  readonly spreads: readonly Spread[];
  readonly veneers: readonly (readonly [string, ImageBitmap])[];
  readonly prints: readonly (readonly [string, { readonly picture: ImageBitmap; readonly cm2: number }])[];
}

const pictures = new Map<string, Picture>();
const art = new Map<string, Uint8Array>();
let last: { key: string; preview: FacePreview } | null = null;

/** Everything a preview depends on; names, notes, colourways and veneer colours are not among it. */
const previewKey = (job: Job, face: Face, dpi: number): string => {
  const f = job.faces[face];
  const inks = f.inks.map(({ name: _, ...rest }) => rest);
  const held = f.art.map((a) => pictures.has(a.hash));
  return JSON.stringify([face, dpi, job.deck, { ...f, inks }, held]);
};

function previewOf(job: Job, face: Face, dpi: number): Outcome<FacePreview> {
  const key = previewKey(job, face, dpi);
  if (last?.key === key) return done(last.preview);
  const made = facePreview({ job, face, pictures, dpi, traps: true });
  if (made.ok) last = { key, preview: made.value };
  return made;
}

const small = (width: number, height: number) => {
  const resizeWidth = Math.min(width, 420);
  return {
    resizeWidth,
    resizeHeight: Math.max(1, Math.round((height * resizeWidth) / width)),
    resizeQuality: 'medium' as const,
  };
};
const imageOf = (picture: Picture) =>
  new ImageData(
    new Uint8ClampedArray(picture.data.buffer as ArrayBuffer, picture.data.byteOffset, picture.data.length),
    picture.width as number,
  );

const api = {
  setArt(hash: string, bytes: Uint8Array): void {
    art.set(hash, bytes);
  },
  setPicture(hash: string, picture: Picture): void {
    pictures.set(hash, picture);
  },
  forget(): void {
    pictures.clear();
    art.clear();
    last = null;
  },

  /** The job as one file's bytes. */
  pack(job: Job, extra: ReadonlyMap<string, Uint8Array>): Uint8Array {
    const bytes = packJob({ job, art, extra });
    return Comlink.transfer(bytes, [bytes.buffer]);
  },
  unpack(bytes: Uint8Array): Outcome<JobFile> {
    return unpackJob(bytes);
  },

  /** Pictures of one face at screen resolution. */
  async show(request: ShowRequest): Promise<Outcome<ShowResult>> {
    const { job, face, veneerId, colourwayId } = request;
    const made = previewOf(job, face, request.dpi);
    if (!made.ok) return made;
    const preview = made.value;
    const inks = job.faces[face].inks;
    const colours = job.colourways.find((c) => c.id === colourwayId)?.colours;
    const hexOf = (i: number) => colours?.[inks[i]!.id]?.hex ?? inks[i]!.hex;
    const proofOf = (id: string) => imageOf(faceProof({ job, face, preview, veneerId: id, colourwayId }));

    const proof = await createImageBitmap(proofOf(veneerId));
    const aloneAt = inks.findIndex((ink) => ink.id === request.aloneId);
    const alone =
      aloneAt >= 0 && preview.prints[aloneAt]
        ? await createImageBitmap(inkPicture(preview.prints[aloneAt]!, request.aloneHex ?? hexOf(aloneAt)))
        : null;

    const spreads: Spread[] = [];
    if (request.traps)
      for (const [i, print] of preview.prints.entries()) {
        if (inks[i]?.role !== 'colour') continue;
        const picture = await createImageBitmap(spreadPicture(print, preview.separations[i]!));
        spreads.push({ hex: hexOf(i), kind: i, picture });
      }

    const veneers: [string, ImageBitmap][] = [];
    const prints: [string, { picture: ImageBitmap; cm2: number }][] = [];
    if (request.small) {
      const size = small(preview.width as number, preview.height as number);
      for (const veneer of job.veneers)
        veneers.push([veneer.id, await createImageBitmap(proofOf(veneer.id), size)]);
      const pixel = (MM_PER_INCH / request.dpi / 10) ** 2;
      for (const [i, print] of preview.prints.entries()) {
        const picture = await createImageBitmap(inkPicture(print, hexOf(i)), size);
        prints.push([inks[i]!.id, { picture, cm2: inked(print) * pixel }]);
      }
    }
    const result: ShowResult = { box: preview.box, proof, alone, spreads, veneers, prints };
    const moved = [
      proof,
      alone,
      ...spreads.map((t) => t.picture),
      ...veneers.map((v) => v[1]),
      ...prints.map((p) => p[1].picture),
    ];
    return Comlink.transfer(
      done(result),
      moved.filter((b): b is ImageBitmap => b !== null),
    );
  },

  /** How the films of a face fall on sheets, worked out at `dpi`. */
  plan(job: Job, face: Face, dpi: number): Outcome<PlannedFilms> {
    const made = previewOf(job, face, dpi);
    return made.ok ? done(planFilms(job, face, made.value, dpi)) : made;
  },

  /** Where a flat film can not lie true on the face. */
  async misfit(job: Job, face: Face) {
    const { picture, ...rest } = misfitPicture(job.deck, face, job.faces[face].development);
    const bitmap = await createImageBitmap(picture);
    return Comlink.transfer({ ...rest, face, picture: bitmap }, [bitmap]);
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
