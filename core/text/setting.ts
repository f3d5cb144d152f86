/** How words are set; all that is needed to set them again. Lengths mm. */
export interface TextSetting {
  /** Lines end in `\n`. */
  readonly words: string;
  /** Height of a capital. */
  readonly cap: number;
  /** More room (or less) after each letter. */
  readonly tracking: number;
  /** From one baseline to the next, as a multiple of `cap`. */
  readonly leading: number;
  readonly align: 'left' | 'centre' | 'right';
  /** Radius of the circle the baseline follows: positive arches up, negative hangs like a smile, 0 is straight. */
  readonly arc: number;
  readonly hex: string;
}

export const MOST_LETTERS = 400;
export const MOST_LINES = 20;
/** Bytes a font file may have; the largest with all of Chinese are about 20 MB. */
export const MOST_FONT_BYTES = 32 * 1024 * 1024;
/** Usual distance of baselines, in heights of a capital (common practice, no source). */
export const LEADING = 1.5;
