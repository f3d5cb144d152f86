/** A bank card, mm: ISO/IEC 7810:2019, ID-1. Its corners have a radius of 2.88 to 3.48 mm. */
export const CARD_MM = { width: 85.6, height: 53.98, radius: 3.18 };
/** A ruler's stretch that is held against the screen instead, mm. */
export const RULER_MM = 100;

/** CSS pixels a millimetre on a screen with so many dots of its own a millimetre; zooming the page changes `ratio`, not the screen. */
export const cssPxPerMm = (screenPxPerMm: number, ratio: number): number => screenPxPerMm / ratio;

/** The screen's own dots a millimetre when `mm` fill `cssPx` of the page. */
export const screenPxPerMm = (cssPx: number, mm: number, ratio: number): number => (cssPx * ratio) / mm;

/** What CSS takes an inch to be is 96 px (CSS Values and Units, 5.2); screens differ, so it is only where a guess starts. */
export const GUESS_PX_PER_MM = 96 / 25.4;
