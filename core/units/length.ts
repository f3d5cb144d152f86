/**
 * Lengths. Core lengths are millimetres unless a name says otherwise; `Px`, `Deg` and `Rad` are flavours: a bare
 * number may become any of them, but one never becomes another unnoticed.
 */
export type Mm = number & { readonly unit?: 'mm' };
/** Whole or fractional device pixels of a raster whose dpi is stated beside it. */
export type Px = number & { readonly unit?: 'px' };

/** International inch, exact by definition (1959 agreement). */
export const MM_PER_INCH = 25.4;

/** Pixels per millimetre at `dpi`. */
export const pxPerMm = (dpi: number): number => dpi / MM_PER_INCH;

/** A length in whole and fractional pixels at `dpi`. */
export const toPx = (length: Mm, dpi: number): Px => (length as number) * pxPerMm(dpi);

/** A pixel count at `dpi` as millimetres. */
export const pxToMm = (length: Px, dpi: number): Mm => ((length as number) * MM_PER_INCH) / dpi;
