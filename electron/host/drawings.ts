import type { SvgWindow } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble, drawingTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { inTime, LIMITS, SLOWEST_S } from './artLimits.ts';
import type { DrawingTrial } from './drawingTrial.ts';
import { drawSvg } from './drawSvg.ts';
import { pictureLibrary } from './pictureLibrary.ts';
import { type SvgScan, scanSvg } from './svgScan.ts';
import { framed, type SvgSize, svgSize, unitsOf } from './svgSize.ts';

/** Longer side of the trial drawing, points: what colours are looked for at, so that it is rarely drawn for nothing. */
export const TRIAL_SIDE = 2400;
/** The same where nobody will look at it: all that the library draws at once, going through the drawing but once. */
const UNSEEN_TRIAL_SIDE = 2000;
/** Seconds that reading a drawing and a first look at it may take together; a look is always given `LEAST_LOOK_S`. */
const SLOWEST_IMPORT_S = 9;
const LEAST_LOOK_S = 1.5;
/** Seconds one window of a drawing that passed its trial may take, on a busy machine too. */
const SLOWEST_WINDOW_S = 180;

export interface Drawing {
  readonly scan: SvgScan;
  readonly size: SvgSize;
  /** Seconds it took to read it and to try it. */
  readonly tookS: number;
  /** The whole drawing as tried, where somebody may ask for just that, until somebody does. */
  trial: Picture | null;
}

/** A trial in this very process: it is refused in time, though the library draws on until it is done. */
export const trialHere: DrawingTrial = async (svg, seconds) => {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<'late'>((resolve) => {
    timer = setTimeout(() => resolve('late'), seconds * 1000);
  });
  try {
    return await Promise.race([drawSvg(svg), late]);
  } finally {
    clearTimeout(timer);
  }
};

const isWhole = (window: SvgWindow, units: { readonly width: number; readonly height: number }): boolean =>
  window.x === 0 && window.y === 0 && window.width === units.width && window.height === units.height;

/** Pictures embedded in a drawing count too: a small file may unpack to a very large one. */
async function embeddedInBounds(scan: SvgScan, name: string): Promise<Outcome<void>> {
  let points = 0;
  for (const base64 of scan.embedded) {
    const sharp = await pictureLibrary();
    try {
      const { width, height } = await sharp(Buffer.from(base64, 'base64'), {
        limitInputPixels: false,
      }).metadata();
      points += width * height;
    } catch {
      return drawingTrouble.pictureDamaged(name);
    }
    if (points > LIMITS.embeddedPixels)
      return drawingTrouble.picturesTooLarge(name, LIMITS.embeddedPixels / 1e6);
  }
  return done(undefined);
}

function textOf(bytes: Uint8Array, name: string): Outcome<string> {
  const start = Buffer.from(bytes.subarray(0, 200)).toString('latin1');
  const stated =
    /^\s*(?:\u00ef\u00bb\u00bf)?<\?xml[^>]*encoding\s*=\s*["']([\w.:-]+)["']/.exec(start)?.[1] ?? 'utf-8';
  try {
    return done(new TextDecoder(stated, { fatal: true }).decode(bytes));
  } catch {
    return drawingTrouble.otherEncoding(name, stated);
  }
}

export interface Drawings {
  /** The drawing these very bytes are, read and tried once. `unseen`: nobody will ask for the trial's own picture. */
  of(bytes: Uint8Array, name: string, unseen?: boolean): Promise<Outcome<Drawing>>;
  /** A window of it; one that is only a look ends soon. */
  rasterise(bytes: Uint8Array, name: string, window: SvgWindow): Promise<Outcome<Picture>>;
}

/** SVG drawings: read by our own scan first, tried by `tryOut`, and handed to the library only as buffers. */
export function drawingsBy(tryOut: DrawingTrial): Drawings {
  /** Drawings already looked at, by the very bytes handed over; films ask for many windows of one drawing. */
  const drawings = new WeakMap<Uint8Array, Promise<Outcome<Drawing>>>();

  async function draw(drawing: Drawing, window: SvgWindow): Promise<Picture> {
    const picture = await drawSvg(Buffer.from(framed(drawing.scan, drawing.size, window)));
    if (picture.width !== window.outWidth || picture.height !== window.outHeight)
      throw new Error(
        `Asked for ${window.outWidth} × ${window.outHeight}, got ${picture.width} × ${picture.height}.`,
      );
    return picture;
  }

  async function readDrawing(bytes: Uint8Array, name: string, unseen: boolean): Promise<Outcome<Drawing>> {
    const started = performance.now();
    const mb = LIMITS.svgBytes / 1048576;
    if (bytes.length > LIMITS.svgBytes) return drawingTrouble.tooLarge(name, mb);
    const text = textOf(bytes, name);
    if (!text.ok) return text;
    const scan = scanSvg(text.value, name);
    if (!scan.ok) return scan;
    const size = svgSize(scan.value, name);
    if (!size.ok) return size;
    const inBounds = await embeddedInBounds(scan.value, name);
    if (!inBounds.ok) return inBounds;
    const units = unitsOf(size.value);
    let tried: Picture | 'late';
    const k = (unseen ? UNSEEN_TRIAL_SIDE : TRIAL_SIDE) / Math.max(units.width, units.height);
    const trial = {
      x: 0,
      y: 0,
      ...units,
      outWidth: Math.max(1, Math.round(units.width * k)),
      outHeight: Math.max(1, Math.round(units.height * k)),
    };
    try {
      const trying = tryOut(Buffer.from(framed(scan.value, size.value, trial)), SLOWEST_S, unseen);
      // Meanwhile: what draws the windows, should it pass. Whether that can be read is seen then.
      pictureLibrary().catch(() => {});
      tried = await trying;
      if (tried === 'late') return artTrouble.tooSlow(name, SLOWEST_S);
      if (tried.width !== trial.outWidth || tried.height !== trial.outHeight)
        return artTrouble.damaged(name, 'SVG');
    } catch {
      return artTrouble.damaged(name, 'SVG');
    }
    const tookS = (performance.now() - started) / 1000;
    return done({ scan: scan.value, size: size.value, tookS, trial: unseen ? null : tried });
  }

  function drawingOf(bytes: Uint8Array, name: string, unseen = false): Promise<Outcome<Drawing>> {
    let drawing = drawings.get(bytes);
    if (!drawing) {
      drawing = readDrawing(bytes, name, unseen);
      drawings.set(bytes, drawing);
    }
    return drawing;
  }

  async function rasterise(bytes: Uint8Array, name: string, window: SvgWindow): Promise<Outcome<Picture>> {
    const { outWidth, outHeight } = window;
    const drawing = await drawingOf(bytes, name);
    if (!drawing.ok) return drawing;
    const { trial, size, tookS } = drawing.value;
    if (trial && isWhole(window, unitsOf(size)) && trial.width === outWidth && trial.height === outHeight) {
      drawing.value.trial = null;
      return done(trial);
    }
    const work = draw(drawing.value, window).then(done, () => artTrouble.damaged(name, 'SVG'));
    if (!window.look) return inTime(work, name, SLOWEST_WINDOW_S);
    return inTime(work, name, SLOWEST_IMPORT_S, Math.max(LEAST_LOOK_S, SLOWEST_IMPORT_S - tookS));
  }

  return { of: drawingOf, rasterise };
}
