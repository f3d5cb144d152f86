import { parseHex } from './colour/index.ts';
import type { Face } from './deck/index.ts';
import { faceProof } from './facePreview.ts';
import { lettering, shorten } from './film/index.ts';
import type { Job } from './job/index.ts';
import type { ProofPlates } from './makeProof.ts';
import type { Picture } from './raster/index.ts';
import { handCover } from './separate/index.ts';
import { pxPerMm } from './units/index.ts';

/** mm between proofs and round them, and of the letters' capitals, on decks at their own size. */
const GAP = 22;
const CAPITALS = 14;
/** Letters of a name that are written. */
const LETTERS = 34;
const PAPER = '#fcf8ee';
const INK = '#2a2118';

export interface ProofGrid {
  readonly picture: Picture;
  /** By rows, in the order drawn: each proof's veneer and colourway (ids; null: the inks as they are). */
  readonly cells: readonly { readonly veneerId: string; readonly colourwayId: string | null }[];
}

/** Every veneer (a row each) in every colourway (a column each) of the run, named, on paper; the noses to the right. */
export function proofGrid(input: {
  readonly job: Job;
  readonly face: Face;
  readonly plates: ProofPlates;
  readonly misregisterMm?: number;
  readonly seed?: number;
}): ProofGrid {
  const { job, plates } = input;
  const ways = job.colourways.length > 0 ? job.colourways : [null];
  const scale = pxPerMm(plates.preview.dpi / plates.reduce);
  const gap = Math.round(GAP * scale);
  const head = Math.round(2 * CAPITALS * scale);
  const cells: { veneerId: string; colourwayId: string | null }[] = [];
  let out: { picture: Picture & { data: Uint8Array }; width: number; height: number } | null = null;
  job.veneers.forEach((veneer, row) => {
    ways.forEach((way, column) => {
      const colourwayId = way?.id ?? null;
      const proof = faceProof({ ...input, ...plates, veneerId: veneer.id, colourwayId });
      const [width, height] = [proof.width as number, proof.height as number];
      out ??= {
        width,
        height,
        picture: paper(gap + ways.length * (width + gap), gap + job.veneers.length * (height + head + gap)),
      };
      const x = gap + column * (width + gap);
      const y = gap + row * (height + head + gap);
      lay(proof, out.picture, x, y + head);
      const name = way ? `${veneer.name}, ${way.name}` : veneer.name;
      write(out.picture, shorten(name, LETTERS), x, y + Math.round(1.4 * CAPITALS * scale), scale);
      cells.push({ veneerId: veneer.id, colourwayId });
    });
  });
  const made = out as { picture: Picture } | null;
  return { picture: made?.picture ?? paper(1, 1), cells };
}

function paper(width: number, height: number): Picture & { data: Uint8Array } {
  const [r, g, b] = parseHex(PAPER);
  const data = new Uint8Array(width * height * 4);
  new Uint32Array(data.buffer).fill(((255 << 24) | (b << 16) | (g << 8) | r) >>> 0);
  return { width, height, data };
}

/** Lays a picture with alpha over another, its corner at (x, y); both in encoded values, for its edge is one point wide. */
function lay(from: Picture, to: Picture & { data: Uint8Array }, x: number, y: number): void {
  const width = from.width as number;
  for (let row = 0; row < from.height; row++)
    for (let column = 0; column < width; column++) {
      const at = 4 * (row * width + column);
      const into = 4 * ((y + row) * (to.width as number) + x + column);
      const share = from.data[at + 3]! / 255;
      for (let c = 0; c < 3; c++)
        to.data[into + c] = Math.round(
          to.data[into + c]! + (from.data[at + c]! - to.data[into + c]!) * share,
        );
    }
}

/** Writes a line of text, its baseline's left end at (x, y), in letters that any machine draws alike. */
function write(to: Picture & { data: Uint8Array }, text: string, x: number, y: number, scale: number): void {
  const ink = parseHex(INK);
  const [width, height] = [to.width as number, to.height as number];
  for (const shape of lettering(text, CAPITALS).shapes) {
    if (shape.kind !== 'line') continue;
    const path = shape.points.map(([px, py]) => [x + px * scale, y - py * scale] as const);
    const brush = { kind: 'brush', radius: Math.max(0.6, (shape.width * scale) / 2), path } as const;
    const cover = handCover(brush, { scaleX: 1, scaleY: 1, offsetX: 0, offsetY: 0 }, width, height);
    if (!cover) continue;
    const { width: wide, height: high, data } = cover.plane;
    for (let row = 0; row < high; row++)
      for (let column = 0; column < wide; column++) {
        const share = data[row * wide + column]! / 255;
        const at = 4 * ((cover.y + row) * width + cover.x + column);
        for (let c = 0; c < 3; c++)
          to.data[at + c] = Math.round(to.data[at + c]! + (ink[c]! - to.data[at + c]!) * share);
      }
  }
}
