import { type Art, partOf } from '../../core/job/index.ts';
import type { ArtPicture, Proofs } from '../state/index.ts';
import type { FaceShape } from './faceShape.ts';
import { inMm, type Pen, stamp, trace } from './pen.ts';

/** Grain as long, slightly wandering lines; always the same ones. */
function grain(ctx: CanvasRenderingContext2D, shape: FaceShape, strength: number): void {
  const { x, y, width, height } = shape.box;
  ctx.strokeStyle = `rgba(70, 38, 12, ${strength})`;
  for (let i = 0; i < 46; i++) {
    const wobble = Math.sin(i * 12.9898) * 43758.5453;
    const r = wobble - Math.floor(wobble);
    ctx.lineWidth = 0.25 + r * 0.7;
    const t = y + ((i + r) / 46) * height;
    ctx.beginPath();
    for (let k = 0; k <= 24; k++) {
      const s = x + (k / 24) * width;
      const bend = Math.sin(k * 0.55 + i * 0.9) * 1.6 + Math.sin(k * 0.21 + r * 9) * 2.4;
      if (k === 0) ctx.moveTo(s, t + bend);
      else ctx.lineTo(s, t + bend);
    }
    ctx.stroke();
  }
}

/** A piece of art as it was drawn, in its place. */
function drawArt(ctx: CanvasRenderingContext2D, piece: Art, picture: ArtPicture): void {
  ctx.save();
  ctx.translate(piece.x, piece.y);
  ctx.rotate((piece.rotationDeg * Math.PI) / 180);
  ctx.scale(piece.mirror ? -1 : 1, -1);
  const { x0, y0, x1, y1 } = partOf(piece);
  ctx.globalAlpha *= piece.opacity ?? 1;
  ctx.drawImage(
    picture.image,
    x0 * picture.width,
    y0 * picture.height,
    (x1 - x0) * picture.width,
    (y1 - y0) * picture.height,
    -piece.width / 2,
    -piece.height / 2,
    piece.width,
    piece.height,
  );
  ctx.restore();
}

export interface DeckScene {
  readonly shape: FaceShape;
  readonly veneerHex: string;
  readonly proofs: Proofs | null;
  /** What lies on the wood. */
  readonly layer: 'proof' | 'alone' | 'film' | 'art' | 'bare';
  /** The art as drawn lies tailwards of this share of the box, what is printed noseward; null: no divider. */
  readonly divider: number | null;
  readonly art: readonly Art[];
  readonly pictures: ReadonlyMap<string, ArtPicture>;
  /** Pieces shown faintly beyond the deck's edge too. */
  readonly ghosts: readonly string[];
  readonly hatches: boolean;
}

/** The deck on the bench: its shadow, the wood, what is printed on it, the truck holes and the rail. */
export function drawDeck(pen: Pen, scene: DeckScene): void {
  const { shape, proofs, layer, pictures } = scene;
  inMm(pen, (ctx) => {
    const px = 1 / pen.view.scale;
    for (const piece of scene.art) {
      const picture = pictures.get(piece.hash);
      if (!picture || piece.hidden || !scene.ghosts.includes(piece.id)) continue;
      ctx.globalAlpha = 0.22;
      drawArt(ctx, piece, picture);
      ctx.globalAlpha = 1;
    }
    ctx.save();
    ctx.shadowColor = 'rgba(40, 24, 8, 0.38)';
    ctx.shadowBlur = 22;
    ctx.shadowOffsetY = 9;
    ctx.beginPath();
    trace(ctx, shape.outline);
    ctx.fillStyle = scene.veneerHex;
    ctx.fill();
    ctx.restore();

    ctx.save();
    ctx.beginPath();
    trace(ctx, shape.outline);
    ctx.clip();
    ctx.imageSmoothingQuality = 'high';
    if (layer === 'proof' && proofs) stamp(ctx, proofs.proof, proofs.box);
    else if (layer === 'film' && proofs?.alone) {
      // A film is clear with a little grey, the wood dim beneath it.
      ctx.fillStyle = 'rgba(240, 242, 240, 0.72)';
      ctx.fillRect(shape.box.x, shape.box.y, shape.box.width, shape.box.height);
      stamp(ctx, proofs.alone, proofs.box);
    } else if (layer === 'alone' && proofs?.alone) stamp(ctx, proofs.alone, proofs.box);
    else if (layer === 'art')
      for (const piece of scene.art) {
        const picture = pictures.get(piece.hash);
        if (picture && !piece.hidden) drawArt(ctx, piece, picture);
      }
    if (scene.divider !== null) {
      ctx.save();
      ctx.beginPath();
      ctx.rect(shape.box.x, shape.box.y, shape.box.width * scene.divider, shape.box.height);
      ctx.clip();
      ctx.fillStyle = scene.veneerHex;
      ctx.fill();
      for (const piece of scene.art) {
        const picture = pictures.get(piece.hash);
        if (picture && !piece.hidden) drawArt(ctx, piece, picture);
      }
      ctx.restore();
    }
    if (scene.hatches) {
      ctx.fillStyle = 'rgba(250, 246, 236, 0.45)';
      ctx.fillRect(shape.box.x, shape.box.y, shape.box.width, shape.box.height);
    }
    ctx.globalCompositeOperation = 'multiply';
    grain(ctx, shape, layer === 'bare' ? 0.16 : 0.07);
    ctx.globalCompositeOperation = 'source-over';
    ctx.restore();

    for (const { s, t } of shape.holes) {
      ctx.beginPath();
      ctx.arc(s, t, shape.holeRadius, 0, 7);
      ctx.fillStyle = '#2a1c10';
      ctx.fill();
      ctx.lineWidth = 1.2 * px;
      ctx.strokeStyle = 'rgba(255, 240, 215, 0.75)';
      ctx.stroke();
    }
    ctx.beginPath();
    trace(ctx, shape.outline);
    ctx.lineWidth = 1.4 * px;
    ctx.strokeStyle = 'rgba(60, 34, 12, 0.85)';
    ctx.stroke();
  });
}
