import { hatchGround, type Spread } from '../state/index.ts';
import { inMm, type Pen, stamp } from './pen.ts';

/** Side of a hatch tile, CSS pixels. */
const TILE = 8;

/** Six hatches, so that neighbouring inks differ by pattern as well as colour, and broken strokes for the choke. */
const STROKES: readonly ((ctx: CanvasRenderingContext2D) => void)[] = [
  (ctx) => {
    for (const d of [-TILE, 0, TILE]) {
      ctx.moveTo(d - 1, TILE + 1);
      ctx.lineTo(d + TILE + 1, -1);
    }
  },
  (ctx) => {
    for (const d of [-TILE, 0, TILE]) {
      ctx.moveTo(d - 1, -1);
      ctx.lineTo(d + TILE + 1, TILE + 1);
    }
  },
  (ctx) => {
    ctx.moveTo(0, TILE / 2);
    ctx.lineTo(TILE, TILE / 2);
  },
  (ctx) => {
    ctx.moveTo(TILE / 2, 0);
    ctx.lineTo(TILE / 2, TILE);
  },
  (ctx) => {
    ctx.moveTo(TILE / 2 - 0.1, TILE / 2);
    ctx.lineTo(TILE / 2 + 0.1, TILE / 2);
  },
  (ctx) => {
    ctx.moveTo(0, TILE / 2);
    ctx.lineTo(TILE, TILE / 2);
    ctx.moveTo(TILE / 2, 0);
    ctx.lineTo(TILE / 2, TILE);
  },
  (ctx) => {
    ctx.moveTo(0, TILE / 4);
    ctx.lineTo(TILE / 2, TILE / 4);
    ctx.moveTo(TILE / 2, (3 * TILE) / 4);
    ctx.lineTo(TILE, (3 * TILE) / 4);
  },
];

/** The last is the choke's own; inks share the others. */
const CHOKE = STROKES.length - 1;
const strokeOf = (kind: Spread['kind']): number => (kind === 'choke' ? CHOKE : kind % CHOKE);

const tiles = new Map<string, HTMLCanvasElement>();
/** A small repeating hatch in a colour; `kind` 0 to 5 tells them apart, and `choke` from them. */
export function hatchTile(kind: Spread['kind'], hex: string): HTMLCanvasElement {
  const stroke = strokeOf(kind);
  const key = `${stroke} ${hex}`;
  const known = tiles.get(key);
  if (known) return known;
  const canvas = document.createElement('canvas');
  canvas.width = TILE;
  canvas.height = TILE;
  const ctx = canvas.getContext('2d')!;
  // A pale ink would drown in a pale ground.
  ctx.fillStyle = hatchGround(hex);
  ctx.fillRect(0, 0, TILE, TILE);
  ctx.strokeStyle = hex;
  ctx.lineWidth = stroke === 4 ? 5 : stroke === CHOKE ? 2.5 : 3.5;
  ctx.lineCap = stroke === 4 ? 'round' : 'butt';
  ctx.beginPath();
  STROKES[stroke]!(ctx);
  ctx.stroke();
  tiles.set(key, canvas);
  return canvas;
}

let sheet: HTMLCanvasElement | null = null;

/** Each ink's spread beyond its separation, hatched at the screen's own size however far the board is zoomed. */
export function drawSpreads(
  pen: Pen,
  box: { x: number; y: number; width: number; height: number },
  spreads: readonly Spread[],
): void {
  sheet ??= document.createElement('canvas');
  for (const spread of spreads) {
    sheet.width = pen.width;
    sheet.height = pen.height;
    const ctx = sheet.getContext('2d')!;
    inMm({ ...pen, ctx }, (mm) => {
      mm.imageSmoothingEnabled = false;
      stamp(mm, spread.picture, box);
    });
    ctx.globalCompositeOperation = 'source-in';
    ctx.fillStyle = ctx.createPattern(hatchTile(spread.kind, spread.hex), 'repeat')!;
    ctx.fillRect(0, 0, pen.width, pen.height);
    pen.ctx.drawImage(sheet, 0, 0, pen.width, pen.height);
  }
}
