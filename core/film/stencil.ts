import { blankMask, borrowBlank, encodeG4, giveBack, type Mask, msbRows } from '../raster/index.ts';
import { pageMask, type SheetPicture } from './window.ts';

/** zlib-wrapped deflate. */
type Deflate = (bytes: Uint8Array) => Uint8Array;

/** A mask packed as a PDF image mask has it: CCITT Group 4, or Flate of rows with the high bit first; 0 is ink. */
export interface Stencil {
  readonly width: number;
  readonly height: number;
  readonly filter: 'g4' | 'flate';
  readonly bytes: Uint8Array;
}

/** Points beyond which a picture is first judged by some of its rows. */
const LARGE = 4_000_000;
/** Rows of one look, and how many looks there are, evenly spread. */
const LOOK = 8;
const LOOKS = 6;
/** How much smaller than Flate those rows must be in Group 4 for the rest to be believed to be, too. */
const CLEARLY = 0.8;

/**
 * Rows whose 0 is ink, as a stencil paints where nothing else is said. A Decode array would say the opposite as well, but
 * a program that takes pictures out of a page may overlook it (poppler's pdfimages does) and hand on a negative film.
 */
const paintedRows = (mask: Mask): Uint8Array => msbRows(mask, true);

/** Whether Group 4 is so clearly the smaller that deflating the whole picture, by far the dearer of the two, can be left. */
function clearlyG4(mask: Mask, deflate: Deflate): boolean {
  const { width, height } = mask;
  if (width * height < LARGE || height < LOOKS * LOOK) return false;
  const some = blankMask(width, LOOKS * LOOK);
  for (let i = 0; i < LOOKS; i++) {
    const from = Math.floor(((i + 0.5) * height) / LOOKS - LOOK / 2) * mask.stride;
    some.data.set(mask.data.subarray(from, from + LOOK * mask.stride), i * LOOK * mask.stride);
  }
  return encodeG4(some).length < CLEARLY * deflate(paintedRows(some)).length;
}

/** The mask in whichever of Group 4 and Flate is smaller; of a large picture some rows may tell. */
export function stencilOf(mask: Mask, deflate: Deflate): Stencil {
  const { width, height } = mask;
  const g4 = encodeG4(mask);
  const flate = clearlyG4(mask, deflate) ? null : deflate(paintedRows(mask));
  return flate === null || g4.length < flate.length
    ? { width, height, filter: 'g4', bytes: g4 }
    : { width, height, filter: 'flate', bytes: flate };
}

/** One sheet's picture, packed; what it is drawn in on the way is borrowed. */
export function sheetStencil({ film, sheet }: SheetPicture, deflate: Deflate): Stencil {
  const drawn: Mask[] = [];
  const page = pageMask(film, sheet, (width, height) => {
    const mask = borrowBlank(width, height);
    drawn.push(mask);
    return mask;
  });
  const stencil = stencilOf(page, deflate);
  giveBack(...drawn);
  return stencil;
}
