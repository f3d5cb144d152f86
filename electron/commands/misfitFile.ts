import {
  type Deck,
  type Face,
  holesOnSurface,
  type Misfit,
  misfitPicture,
  outlineOnSurface,
} from '../../core/deck/index.ts';
import { blankMask, fillRings, getBit, grow, type Picture } from '../../core/raster/index.ts';
import { pxPerMm, type Ring } from '../../core/units/index.ts';

/** Dots an inch of the picture. */
export const MISFIT_DPI = 100;
const PAPER = [250, 246, 238] as const;
const DARK = [46, 34, 20] as const;
/** mm of paper round the deck. */
const ROOM = 8;
/** Points the outline is wide. */
const LINE = 2;

/** The heat map of a face's misfit on paper, with the deck's outline and its truck holes. Row 0 is the top. */
export function misfitOnPaper(deck: Deck, face: Face, grid: Misfit): Picture {
  const scale = pxPerMm(MISFIT_DPI);
  const outline = outlineOnSurface(deck, face);
  const { picture, box } = misfitPicture(grid, scale, outline);
  const edge = Math.round(ROOM * scale);
  const width = picture.width + 2 * edge;
  const height = picture.height + 2 * edge;
  const toPx = (s: number, t: number) =>
    [(s - box.x) * scale + edge, (box.y + box.height - t) * scale + edge] as const;
  const radius = (deck.holes.diameter / 2) * scale;
  const holeRings: Ring[] = holesOnSurface(deck, face).map(({ s, t }) => {
    const [cx, cy] = toPx(s, t);
    return Array.from({ length: 32 }, (_, i) => {
      const turn = (i * Math.PI) / 16;
      return [cx + radius * Math.cos(turn), cy + radius * Math.sin(turn)] as const;
    });
  });
  const wood = fillRings(blankMask(width, height), [outline.map(([s, t]) => toPx(s, t))]);
  const withLine = grow(wood, LINE);
  const holes = fillRings(blankMask(width, height), holeRings);
  const data = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const onWood = getBit(wood, x, y);
      const dark = getBit(holes, x, y) || (!onWood && getBit(withLine, x, y));
      const at = ((y - edge) * picture.width + x - edge) * 4;
      const alpha = onWood ? (picture.data[at + 3] ?? 0) / 255 : 0;
      const to = (y * width + x) * 4;
      for (let c = 0; c < 3; c++)
        data[to + c] = dark
          ? (DARK[c] as number)
          : Math.round((PAPER[c] as number) * (1 - alpha) + (picture.data[at + c] ?? 0) * alpha);
      data[to + 3] = 255;
    }
  return { width, height, data };
}
