import { artPlace } from '../../core/artPlace.ts';
import type { Face } from '../../core/deck/index.ts';
import { type Art, type HandRegion, idFrom, type Job } from '../../core/job/index.ts';
import { changeArt, edit, type HandTool, NO_STROKE, tell, useStudio } from '../state/index.ts';
import { thinStroke } from './thinStroke.ts';

const set = useStudio.setState;
const get = useStudio.getState;

/** Points that a stroke may keep; the schema holds a few more. */
const MOST_POINTS = 3000;
/** Seven figures: a thousandth of a mm on the longest deck. */
const tidy = (v: number) => Number(v.toPrecision(7));

const DRAWN: HandTool = { kind: 'lasso', to: null, only: null, bareStays: true, width: 6 };

/** Takes up a tool, or puts it down when it was in the hand. What a region was last given to stays chosen. */
export function takeTool(kind: HandTool['kind'] | null): void {
  const { hand, handLast, job, face, inkId } = get();
  const now = hand ?? handLast;
  if (kind === null || hand?.kind === kind) {
    set({ hand: null, handLast: hand ?? handLast, stroke: NO_STROKE });
    return;
  }
  const inks = job?.faces[face].inks ?? [];
  const known = (id: string | null) => inks.some((ink) => ink.id === id);
  const first = inkId ?? inks.find((ink) => ink.role === 'colour')?.id ?? null;
  const to = now ? (now.to === null || known(now.to) ? now.to : first) : first;
  const only = now && known(now.only) ? now.only : null;
  set({
    hand: { ...(now ?? DRAWN), kind, to, only },
    stroke: NO_STROKE,
    divider: null,
    aloneId: null,
    loupe: null,
  });
}

/** The region a stroke makes on one piece, or null where it does not touch it. */
export function regionOn(
  job: Job,
  face: Face,
  piece: Art,
  tool: HandTool,
  points: readonly (readonly [number, number])[],
): HandRegion | null {
  const place = artPlace(job.deck, face, piece);
  const inArt = points.map(([s, t]) => {
    const { x, y } = place.toArt(s, t);
    return [tidy(x), tidy(y)] as [number, number];
  });
  const radius = tool.kind === 'brush' ? tidy((tool.width / 2) * place.pxPerMm) : 0;
  const xs = inArt.map((p) => p[0]);
  const ys = inArt.map((p) => p[1]);
  const apart =
    Math.max(...xs) + radius < 0 ||
    Math.max(...ys) + radius < 0 ||
    Math.min(...xs) - radius > piece.widthPx ||
    Math.min(...ys) - radius > piece.heightPx;
  if (apart) return null;
  const taken = (piece.regions ?? []).map((r) => r.id);
  return {
    id: idFrom('hand', taken),
    to: tool.to,
    only: tool.only,
    bareStays: tool.bareStays,
    shape: tool.kind === 'brush' ? { kind: 'brush', radius, path: inArt } : { kind: 'lasso', ring: inArt },
  };
}

/** The stroke becomes a region of every piece it touches: one named step. */
export function finishStroke(): void {
  const { job, face, hand, stroke, view } = get();
  set({ stroke: { ...NO_STROKE, at: stroke.at } });
  if (!job || !hand || hand.kind === 'pick') return;
  const points = thinStroke(stroke.points, 0.4 / view.scale, MOST_POINTS);
  if (points.length < (hand.kind === 'lasso' ? 3 : 1)) {
    if (points.length > 0)
      tell('note', 'A region needs at least three corners.', 'Draw all the way round it.');
    return;
  }
  const ink = job.faces[face].inks.find((i) => i.id === hand.to);
  const label = `${hand.kind === 'brush' ? 'Brush' : 'Region'} to ${ink?.name ?? 'bare wood'}`;
  let touched = 0;
  edit(label, (now) =>
    now.faces[face].art
      .filter((piece) => !piece.hidden)
      .reduce((j, piece) => {
        const region = regionOn(j, face, piece, hand, points);
        if (!region) return j;
        touched++;
        return changeArt(j, face, piece.id, { regions: [...(piece.regions ?? []), region] });
      }, now),
  );
  if (touched === 0) tell('note', 'There is no art there to change.', 'Draw over a piece of art.');
}

/** The colour the art has at a place of the deck; null where there is none. The topmost piece that is not clear there. */
export function colourAt(s: number, t: number): string | null {
  const { job, face, pictures } = get();
  for (const piece of job?.faces[face].art.toReversed() ?? []) {
    const picture = pictures.get(piece.hash);
    if (!picture || piece.hidden) continue;
    const { x, y } = artPlace(job!.deck, face, piece).toArt(s, t);
    const px = Math.floor((x / piece.widthPx) * picture.width);
    const py = Math.floor((y / piece.heightPx) * picture.height);
    if (px < 0 || py < 0 || px >= picture.width || py >= picture.height) continue;
    const hex = commonColour(picture.image, px, py);
    if (hex) return hex;
  }
  return null;
}

/** The commonest opaque colour of the 5 × 5 points about a place: soft edges are mixtures and seldom agree. */
function commonColour(image: HTMLCanvasElement, x: number, y: number): string | null {
  const data = image.getContext('2d')?.getImageData(x - 2, y - 2, 5, 5).data;
  if (!data || data[4 * 12 + 3]! < 128) return null;
  const counts = new Map<string, number>();
  for (let i = 0; i < data.length; i += 4) {
    if (data[i + 3]! < 250) continue;
    const hex = `#${[0, 1, 2].map((c) => data[i + c]!.toString(16).padStart(2, '0')).join('')}`;
    // The point itself wins against as many others.
    counts.set(hex, (counts.get(hex) ?? 0) + (i === 48 ? 1.5 : 1));
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

/** Looks which colour lies at a place and shows it on the bench. */
export function pickColour(s: number, t: number): void {
  const hex = colourAt(s, t);
  set({ picked: hex ? { hex, s, t } : null });
  if (!hex) tell('note', 'There is no art at this place.', 'Click a colour of the art.');
}
