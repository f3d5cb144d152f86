import { type Deck, type Face, makeSurface } from './deck/index.ts';
import { placementInverse } from './faceRaster.ts';
import type { Art } from './job/index.ts';

/** Where a piece's own pixels lie on the wood. Art: pixels, x to the right, y down. Surface: mm. */
export interface ArtPlace {
  readonly toArt: (s: number, t: number) => { readonly x: number; readonly y: number };
  readonly toSurface: (x: number, y: number) => { readonly s: number; readonly t: number };
  /** Art pixels to a mm; the geometric mean where the piece is stretched. */
  readonly pxPerMm: number;
}

/** How a piece lies on a face: its placement, and for art seen from above the bend of the wood. */
export function artPlace(deck: Deck, face: Face, piece: Art): ArtPlace {
  const surface = piece.wrap === 'plan' ? makeSurface(deck, face) : null;
  const inverse = placementInverse(piece);
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const flip = piece.mirror ? -1 : 1;
  const at = new Float64Array(2);
  return {
    toArt(s, t) {
      if (surface) {
        const p = surface.toPlan({ s, t });
        inverse(p.x, p.y, at);
      } else inverse(s, t, at);
      return { x: at[0]! * piece.widthPx, y: at[1]! * piece.heightPx };
    },
    toSurface(x, y) {
      const u = flip * (x / piece.widthPx - 0.5) * piece.width;
      const v = (0.5 - y / piece.heightPx) * piece.height;
      const p = { x: piece.x + u * cos - v * sin, y: piece.y + u * sin + v * cos };
      return surface ? surface.toSurface(p) : { s: p.x, t: p.y };
    },
    pxPerMm: Math.sqrt((piece.widthPx / piece.width) * (piece.heightPx / piece.height)),
  };
}
