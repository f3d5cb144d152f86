import { type Mask, signedWords } from '../mask.ts';
import { bitsIn } from '../measure.ts';

/** Where a mask's ink lies. Rows and columns without ink have first = the mask's length that way and last = -1. */
export interface InkSurvey {
  /** By row: points with ink, first and last inked column. */
  readonly rows: Int32Array;
  readonly left: Int32Array;
  readonly right: Int32Array;
  /** By column: points with ink, estimated from every `step`-th row; first and last inked row. */
  readonly columns: Int32Array;
  readonly top: Int32Array;
  readonly bottom: Int32Array;
}

/** A survey that has found nothing yet. */
export function emptySurvey({ width, height }: Mask): InkSurvey {
  const by = (length: number, value: number) => new Int32Array(length).fill(value);
  return {
    rows: by(height, 0),
    left: by(height, width),
    right: by(height, -1),
    columns: by(width, 0),
    top: by(width, height),
    bottom: by(width, -1),
  };
}

/** The readable definition of `surveyInk`. */
export function surveyPlain(mask: Mask, step: number): InkSurvey {
  const { width, height, stride } = mask;
  const words = signedWords(mask);
  const survey = emptySurvey(mask);
  const { rows, left, right, columns, top, bottom } = survey;
  for (let y = 0; y < height; y++)
    for (let w = 0; w < stride; w++) {
      const word = words[y * stride + w]!;
      if (word === 0) continue;
      rows[y] = rows[y]! + bitsIn(word);
      left[y] = Math.min(left[y]!, w * 32 + 31 - Math.clz32(word & -word));
      right[y] = w * 32 + 31 - Math.clz32(word);
      for (let x = w * 32; x < Math.min(width, w * 32 + 32); x++) {
        if (((word >>> (x & 31)) & 1) === 0) continue;
        top[x] = Math.min(top[x]!, y);
        bottom[x] = y;
        if (y % step === 0) columns[x] = columns[x]! + step;
      }
    }
  return survey;
}
