import { type Face, outlineRing, printableRings } from '../deck/index.ts';
import { artTrouble } from '../sentences/index.ts';
import { type Box, done, MM_PER_INCH, type Outcome, type Ring } from '../units/index.ts';
import { idFrom } from './defaults.ts';
import type { Art, Job } from './schema.ts';

export type Fit = 'cover' | 'contain' | 'actual';

/** What is known of a piece of art before it is placed; see `ImageCodec.probe`. */
export interface ArtFacts {
  readonly name: string;
  readonly hash: string;
  readonly mediaType: Art['mediaType'];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly stated: { readonly width: number; readonly height: number } | null;
  readonly ground: string | null;
}

const boxOfRings = (rings: readonly Ring[]): Box => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of rings)
    for (const [x, y] of ring) {
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
  return { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
};

/** The box that art is fitted to, mm: the printable area, on the surface or in plan as the wrap asks. */
export function fitBox(job: Job, face: Face, wrap: Art['wrap']): Box {
  const settings = job.faces[face];
  if (wrap === 'surface')
    return boxOfRings(printableRings(job.deck, face, { ...settings, clearHoles: 0, reach: null }));
  const outline = boxOfRings([outlineRing(job.deck, face)]);
  const inset = settings.railMargin;
  return {
    x: outline.x + inset,
    y: outline.y + inset,
    width: Math.max(1, outline.width - 2 * inset),
    height: Math.max(1, outline.height - 2 * inset),
  };
}

/** Size on the deck, mm, of art with `widthPx × heightPx` in `box`. Cover fills the box, contain stays inside it. */
export function fitted(box: Box, widthPx: number, heightPx: number, fit: 'cover' | 'contain') {
  const across = box.width / widthPx;
  const down = box.height / heightPx;
  const scale = fit === 'cover' ? Math.max(across, down) : Math.min(across, down);
  return { width: widthPx * scale, height: heightPx * scale };
}

/**
 * The job with the art on the face, centred on the printable area. `actual` takes the size the file states, or
 * `artDpi`; without either it is refused, since a guess would print the wrong size.
 */
export function placeArt(
  job: Job,
  face: Face,
  art: ArtFacts,
  options: { readonly fit: Fit; readonly wrap: Art['wrap']; readonly artDpi: number | null },
): Outcome<{ readonly job: Job; readonly art: Art }> {
  const box = fitBox(job, face, options.wrap);
  let size: { width: number; height: number };
  if (options.fit !== 'actual') size = fitted(box, art.widthPx, art.heightPx, options.fit);
  else if (options.artDpi !== null)
    size = {
      width: (art.widthPx * MM_PER_INCH) / options.artDpi,
      height: (art.heightPx * MM_PER_INCH) / options.artDpi,
    };
  else if (art.stated) size = { width: art.stated.width, height: art.stated.height };
  else return artTrouble.noSize(art.name);
  if (!(size.width >= 0.1 && size.height >= 0.1 && size.width <= 5000 && size.height <= 5000))
    return artTrouble.wrongSize(art.name, size.width.toFixed(1), size.height.toFixed(1));
  const pieces = job.faces[face].art;
  const placed: Art = {
    id: idFrom(
      art.name.replace(/\.[^.]*$/, ''),
      pieces.map((p) => p.id),
    ),
    name: art.name,
    hash: art.hash,
    mediaType: art.mediaType,
    widthPx: art.widthPx,
    heightPx: art.heightPx,
    width: size.width,
    height: size.height,
    x: box.x + box.width / 2,
    y: box.y + box.height / 2,
    rotationDeg: 0,
    mirror: false,
    wrap: options.wrap,
    ground: art.ground,
    hidden: false,
  };
  const faces = { ...job.faces, [face]: { ...job.faces[face], art: [...pieces, placed] } };
  return done({ job: { ...job, faces }, art: placed });
}
