import { artPlace } from '../../core/artPlace.ts';
import type { Deck, Face } from '../../core/deck/index.ts';
import type { Art, HandRegion } from '../../core/job/index.ts';
import type { StudioState } from '../state/index.ts';
import { at, inMm, type Pen } from './pen.ts';

interface Drawn {
  readonly piece: Art;
  readonly deck: Deck;
  readonly points: readonly (readonly [number, number])[];
  /** mm; 0: a closed outline. */
  readonly radius: number;
}

const kept = new WeakMap<HandRegion, Drawn>();

/** A region on the wood, surface mm; worked out once for each place its piece has had. */
function onWood(deck: Deck, face: Face, piece: Art, region: HandRegion): Drawn {
  const known = kept.get(region);
  if (known && known.piece === piece && known.deck === deck) return known;
  const place = artPlace(deck, face, piece);
  const { shape } = region;
  const points = (shape.kind === 'lasso' ? shape.ring : shape.path).map(([x, y]) => {
    const { s, t } = place.toSurface(x, y);
    return [s, t] as const;
  });
  const drawn = { piece, deck, points, radius: shape.kind === 'lasso' ? 0 : shape.radius / place.pxPerMm };
  kept.set(region, drawn);
  return drawn;
}

function path(ctx: CanvasRenderingContext2D, points: Drawn['points'], close: boolean): void {
  ctx.beginPath();
  points.forEach(([s, t], i) => {
    if (i === 0) ctx.moveTo(s, t);
    else ctx.lineTo(s, t);
  });
  // A brush that was set down once is a dot.
  if (points.length === 1) ctx.lineTo(points[0]![0], points[0]![1]);
  if (close) ctx.closePath();
}

/** Pale over dark, dashed: seen on any ink. */
function dashed(ctx: CanvasRenderingContext2D, px: number, accent: string, strong: boolean): void {
  ctx.setLineDash([]);
  ctx.lineWidth = (strong ? 4.5 : 3) * px;
  ctx.strokeStyle = 'rgba(255, 250, 240, 0.92)';
  ctx.stroke();
  ctx.lineWidth = (strong ? 2.2 : 1.3) * px;
  ctx.setLineDash(strong ? [] : [5 * px, 4 * px]);
  ctx.strokeStyle = strong ? accent : 'rgba(40, 24, 10, 0.9)';
  ctx.stroke();
  ctx.setLineDash([]);
}

function brush(ctx: CanvasRenderingContext2D, points: Drawn['points'], radius: number, fill: string): void {
  path(ctx, points, false);
  ctx.lineCap = 'round';
  ctx.lineJoin = 'round';
  ctx.lineWidth = 2 * radius;
  ctx.strokeStyle = fill;
  ctx.globalAlpha = 0.55;
  ctx.stroke();
  ctx.globalAlpha = 1;
}

/** Regions given by hand, what is being drawn, and the cross of the tool. */
export function drawHand(pen: Pen, state: StudioState): void {
  const { job, face, hand, stroke, regionId, picked } = state;
  if (!job || (!hand && !regionId)) return;
  const { accent } = pen.colours;
  const px = 1 / pen.view.scale;
  inMm(pen, (ctx) => {
    for (const piece of job.faces[face].art)
      for (const region of piece.regions ?? []) {
        const chosen = regionId?.art === piece.id && regionId.id === region.id;
        if (piece.hidden || (!hand && !chosen)) continue;
        const { points, radius } = onWood(job.deck, face, piece, region);
        if (radius > 0 && chosen) brush(ctx, points, radius, accent);
        path(ctx, points, radius === 0);
        dashed(ctx, px, accent, chosen);
      }
    if (!hand || stroke.points.length === 0) return;
    if (hand.kind === 'brush') {
      const ink = job.faces[face].inks.find((i) => i.id === hand.to);
      const wood = job.veneers.find((v) => v.id === state.veneerId) ?? job.veneers[0]!;
      brush(ctx, stroke.points, hand.width / 2, ink?.hex ?? wood.hex);
    } else {
      const more = stroke.at && !stroke.down ? [[stroke.at.s, stroke.at.t] as const] : [];
      path(ctx, [...stroke.points, ...more], true);
      dashed(ctx, px, accent, true);
    }
  });
  if (!hand) return;
  if (hand.kind === 'pick' && picked) ring(pen, picked.s, picked.t, 9);
  if (stroke.at) {
    if (hand.kind === 'brush') ring(pen, stroke.at.s, stroke.at.t, (hand.width / 2) * pen.view.scale);
    cross(pen, stroke.at.s, stroke.at.t);
  }
}

function ring(pen: Pen, s: number, t: number, radius: number): void {
  const { ctx, colours } = pen;
  const p = at(pen, s, t);
  for (const [stroke, width] of [
    ['rgba(255, 250, 240, 0.92)', 4],
    [colours.accent, 2],
  ] as const) {
    ctx.save();
    ctx.strokeStyle = stroke;
    ctx.lineWidth = width;
    ctx.beginPath();
    ctx.arc(p.x, p.y, Math.max(2, radius), 0, 7);
    ctx.stroke();
    ctx.restore();
  }
}

function cross(pen: Pen, s: number, t: number): void {
  const { ctx } = pen;
  const p = at(pen, s, t);
  for (const [stroke, width] of [
    ['rgba(255, 250, 240, 0.92)', 3.5],
    ['rgba(40, 24, 10, 0.95)', 1.4],
  ] as const) {
    ctx.save();
    ctx.strokeStyle = stroke;
    ctx.lineWidth = width;
    ctx.beginPath();
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      ctx.moveTo(p.x + dx * 3, p.y + dy * 3);
      ctx.lineTo(p.x + dx * 11, p.y + dy * 11);
    }
    ctx.stroke();
    ctx.restore();
  }
}
