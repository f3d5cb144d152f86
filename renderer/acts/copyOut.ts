import { type Art, partOf } from '../../core/job/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { shell } from './shell.ts';

/** Longer side of a piece's picture on the system's clipboard, points: a page of any program shows no more. */
const SIDE = 3000;

/** A piece as it looks before it is turned: cut and mirrored as it is on the deck, as a PNG. */
async function pngOf(piece: Art): Promise<Blob> {
  const bytes = useStudio.getState().art.get(piece.hash);
  if (!bytes) throw new Error('The art is not here.');
  const { x0, y0, x1, y1 } = partOf(piece);
  const side = Math.min(8192, Math.round(SIDE / Math.max(x1 - x0, y1 - y0)));
  const drawn = await shell().decodeArt(bytes, piece.name, side as never);
  if (!drawn.ok) throw new Error(drawn.reason);
  const { width, height, data } = drawn.value;
  const whole = new ImageData(new Uint8ClampedArray(data), width, height);
  const across = Math.max(1, Math.round((x1 - x0) * width));
  // The deck may show the piece wider or narrower than it was drawn.
  const down = Math.max(1, Math.round((across * piece.height) / piece.width));
  const canvas = new OffscreenCanvas(across, down);
  const ctx = canvas.getContext('2d');
  if (!ctx) throw new Error('There is no canvas.');
  if (piece.mirror) {
    ctx.translate(across, 0);
    ctx.scale(-1, 1);
  }
  const image = await createImageBitmap(whole);
  ctx.drawImage(image, x0 * width, y0 * height, (x1 - x0) * width, (y1 - y0) * height, 0, 0, across, down);
  image.close();
  return canvas.convertToBlob({ type: 'image/png' });
}

/** Number of the newest copy: a slower, older one must not overwrite it. */
let newest = 0;

/** Puts a piece on the system's clipboard as a picture, with the `marker` by which a paste here knows its own. */
export async function copyOut(piece: Art, marker: string): Promise<void> {
  const mine = ++newest;
  try {
    // The promise goes in unawaited: the system lets a page write only while the user's key is fresh.
    const png = pngOf(piece).then((made) => {
      if (mine !== newest) throw new Error('Another piece was copied since.');
      return made;
    });
    png.catch(() => undefined);
    const text = new Blob([marker], { type: 'text/plain' });
    await navigator.clipboard.write([new ClipboardItem({ 'image/png': png, 'text/plain': text })]);
    tell('note', `${piece.name} is copied: paste it here, or as a picture in another program.`);
  } catch {
    if (mine !== newest) return;
    tell('note', `${piece.name} is copied for pasting here; the system took no picture of it.`);
  }
}
