import type { Face } from '../../core/deck/index.ts';
import { type Fit, fitBox, fitted, partOf } from '../../core/job/index.ts';
import { changeArt, edit, tell, useStudio } from '../state/index.ts';
import { shell } from './shell.ts';

/** Fits a placed piece of art to the printable area, or gives it the size its file states. */
export async function fitArt(face: Face, id: string, fit: Fit): Promise<void> {
  const { job, art } = useStudio.getState();
  const piece = job?.faces[face].art.find((a) => a.id === id);
  if (!job || !piece) return;
  if (fit !== 'actual') {
    const box = fitBox(job, face, piece.wrap);
    // Turned by a quarter, the art's width lies across the deck.
    const turned = Math.abs(Math.round(piece.rotationDeg / 90)) % 2 === 1;
    const frame = turned ? { ...box, width: box.height, height: box.width } : box;
    const { x0, y0, x1, y1 } = partOf(piece);
    const size = fitted(frame, piece.widthPx * (x1 - x0), piece.heightPx * (y1 - y0), fit);
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    edit(fit === 'cover' ? 'Cover the deck' : 'Fit inside the deck', (j) =>
      changeArt(j, face, id, { ...size, ...middle }),
    );
    return;
  }
  const bytes = art.get(piece.hash);
  const probe = bytes ? await shell().probeArt(bytes, piece.name) : null;
  if (probe && !probe.ok) return tell('trouble', probe.reason, probe.mend);
  const stated = probe?.value.stated;
  if (!stated)
    return tell(
      'note',
      `“${piece.name}” states no size of its own.`,
      'Type its width in the field beside, or choose cover or contain.',
    );
  const { x0, y0, x1, y1 } = partOf(piece);
  edit('Actual size', (j) =>
    changeArt(j, face, id, { width: stated.width * (x1 - x0), height: stated.height * (y1 - y0) }),
  );
}
