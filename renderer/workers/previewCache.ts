import type { Face } from '../../core/deck/index.ts';
import { type FacePreview, facePreview } from '../../core/facePreview.ts';
import { InkMemory } from '../../core/inkMemory.ts';
import { isToned, type Job } from '../../core/job/index.ts';
import { rulesOf } from '../../core/printInk.ts';
import type { Picture } from '../../core/raster/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';

interface Kept {
  readonly key: string;
  /** The key without what merely colours the prints. */
  readonly shape: string;
  /** What the preview was made of: a change makes anew only what depends on it. */
  readonly memory: InkMemory;
  readonly preview: FacePreview;
}

/** Everything a preview depends on; names, notes, mesh, colourways and veneer colours are not among it. */
function keysOf(
  job: Job,
  face: Face,
  dpi: number,
  held: (hash: string) => boolean,
): Omit<Kept, 'preview' | 'memory'> {
  // Where sheets meet and what art snaps to changes no ink.
  const { inks, art, boundaries: _, guides: _guides, ...settings } = job.faces[face];
  const drawn = art.map(({ name: _, group: _group, text: _text, ...piece }) => [piece, held(piece.hash)]);
  const shapes = inks.map(({ id, role, needsBase, kind, kept, split, gain }) => [
    id,
    role,
    needsBase,
    kind,
    kept,
    split,
    gain,
  ]);
  const shape = JSON.stringify([dpi, job.deck, job.press, settings, drawn, shapes]);
  // An ink's own colour matters only for who spreads under whom, and where it is also the colour it takes from the art.
  const looks = [
    inks.map((ink) => ink.matches ?? ink.hex),
    rulesOf(job.faces[face]),
    // Tones are mixed from the inks as they look over base and wood.
    isToned(job.faces[face])
      ? [inks.map(({ hex, opacity, measured }) => [hex, opacity, measured]), job.veneers]
      : null,
  ];
  return { shape, key: JSON.stringify([shape, looks]) };
}

/** The last preview of each face. */
export class PreviewCache {
  private readonly kept = new Map<Face, Kept>();

  constructor(private readonly pictures: ReadonlyMap<string, Picture>) {}

  clear(): void {
    this.kept.clear();
  }

  /**
   * The face at `dpi`. When `exact` is false and only colours have changed since the last one, that one is given: the
   * same shapes in new colours, true within what the new colours attract in the art.
   */
  get(job: Job, face: Face, dpi: number, exact: boolean): Outcome<FacePreview> {
    const keys = keysOf(job, face, dpi, (hash) => this.pictures.has(hash));
    const known = this.kept.get(face);
    if (known && (known.key === keys.key || (!exact && known.shape === keys.shape)))
      return done(known.preview);
    const memory = known?.memory ?? new InkMemory();
    const loose = !exact;
    const made = facePreview({ job, face, pictures: this.pictures, dpi, traps: true, memory, loose });
    if (made.ok) this.kept.set(face, { ...keys, memory, preview: made.value });
    return made;
  }
}
