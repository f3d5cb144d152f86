import { filmTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import type { FilmPrinter } from './printer.ts';
import type { Affine } from './shape.ts';

/** Where a calibration sheet's four crosses stand, page mm, and how far apart they were asked to be. */
export interface CalibrationFrame {
  readonly x: Mm;
  readonly y: Mm;
  readonly width: Mm;
  readonly height: Mm;
  readonly diagonal: Mm;
}

/** Degrees: a printer that leans more has lost its paper's way; a job holds no more either. */
const MOST_LEAN = 2;
/** mm the crosses keep from the printable edge, for rulers and figures. */
const ROOM = 14;

/** The largest frame of whole centimetres the sheet holds, centred; null on a sheet under about 60 mm. */
export function calibrationFrame(printer: Pick<FilmPrinter, 'sheet' | 'margin'>): CalibrationFrame | null {
  const { sheet, margin } = printer;
  const width = Math.floor((sheet.width - 2 * (margin + ROOM)) / 10) * 10;
  const height = Math.floor((sheet.height - 2 * (margin + ROOM)) / 10) * 10;
  if (width < 30 || height < 30) return null;
  return {
    x: (sheet.width - width) / 2,
    y: (sheet.height - height) / 2,
    width,
    height,
    diagonal: Math.hypot(width, height),
  };
}

/** What the user measured on the printed calibration sheet, mm. `rising` is the diagonal from lower left to upper right. */
export interface CalibrationMeasures {
  readonly width: Mm;
  readonly height: Mm;
  readonly rising: Mm;
  readonly falling: Mm;
}

export interface PrinterScale {
  readonly scaleX: number;
  readonly scaleY: number;
  /** Degrees the printed upright leans to the right. */
  readonly skewDeg: number;
}

/**
 * Printer scale and skew from four measured lengths. Scale = measured ÷ asked on each axis. A leaning print is a
 * parallelogram: by the law of cosines rising² - falling² = 4 · width · height · sin(skew). Refuses lengths that no
 * printer makes (over 10 % off, leaning over 2°, diagonals that do not belong to the sides), since they are misreadings.
 */
export function calibrate(frame: CalibrationFrame, measured: CalibrationMeasures): Outcome<PrinterScale> {
  const { width, height, rising, falling } = measured;
  for (const [name, got, asked] of [
    ['width', width, frame.width],
    ['height', height, frame.height],
    ['rising diagonal', rising, frame.diagonal],
    ['falling diagonal', falling, frame.diagonal],
  ] as const) {
    if (!(got > asked * 0.9 && got < asked * 1.1)) {
      return filmTrouble.misreadLength(name, asked.toFixed(1), got);
    }
  }
  // In any parallelogram the squares of the diagonals sum to twice those of the sides; 2 mm of reading error are allowed.
  const mean = Math.sqrt((rising * rising + falling * falling) / 2);
  const sides = Math.hypot(width, height);
  if (Math.abs(mean - sides) > 2) {
    return filmTrouble.diagonalsDisagree(mean.toFixed(1), sides.toFixed(1));
  }
  const sine = (rising * rising - falling * falling) / (4 * width * height);
  const skewDeg = (Math.asin(Math.max(-1, Math.min(1, sine))) * 180) / Math.PI;
  if (Math.abs(skewDeg) > MOST_LEAN) return filmTrouble.leansTooFar(skewDeg.toFixed(1));
  return done({ scaleX: width / frame.width, scaleY: height / frame.height, skewDeg });
}

/**
 * Takes the printer's error out of a page: where to ask for a point, page mm, so that it is printed at (X, Y). The inverse,
 * about the sheet's centre, of printed = (scaleX·x + scaleY·sin(skew)·y, scaleY·cos(skew)·y).
 */
export function undoPrinter(printer: FilmPrinter): Affine {
  const { sheet, scaleX, scaleY } = printer;
  const lean = ((printer.skewDeg ?? 0) * Math.PI) / 180;
  const [w, h] = [sheet.width / 2, sheet.height / 2];
  const a = 1 / scaleX;
  const d = 1 / (scaleY * Math.cos(lean));
  const c = lean === 0 ? 0 : -Math.tan(lean) / scaleX;
  return [a, 0, c, d, w - a * w - c * h, h - d * h];
}
