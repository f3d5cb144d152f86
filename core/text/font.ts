import * as fontkit from 'fontkit';
import { badInput, done, type Outcome } from '../units/index.ts';

/** Letters as outlines, in units of the font, y up, its baseline at 0. */
export interface Lettering {
  /** Height of a capital: that of the drawn H, where there is one. */
  readonly capHeight: number;
  readonly has: (codePoint: number) => boolean;
  readonly layout: (text: string) => fontkit.GlyphRun;
  readonly unitsPerEm: number;
}

/** Bytes a font file may have; the largest with all of Chinese are about 20 MB. */
export const MOST_FONT_BYTES = 32 * 1024 * 1024;

const mend = 'Pick a .ttf, .otf, .woff or .woff2 file that other programs can open.';

/** The first font of the file. Bytes are never trusted: whatever breaks while they are read is one sentence. */
export function openFont(bytes: Uint8Array, name: string): Outcome<Lettering & { readonly family: string }> {
  if (bytes.length > MOST_FONT_BYTES)
    return badInput(
      `“${name}” has ${Math.round(bytes.length / 1048576)} MB; a font may have ${MOST_FONT_BYTES / 1048576}.`,
      'Pick a font with fewer letters.',
    );
  try {
    const made = fontkit.create(bytes);
    const font = 'fonts' in made ? made.fonts[0] : made;
    if (!font || !(font.unitsPerEm >= 16 && font.unitsPerEm <= 16384)) throw new Error('no font');
    const capital = font.hasGlyphForCodePoint(0x48) ? font.glyphForCodePoint(0x48).path.bbox.maxY : 0;
    // Fonts without capitals: what the font states (OS/2 sCapHeight), else 0.7 of the em (common practice, no source).
    const stated = font.capHeight > 0 ? font.capHeight : 0.7 * font.unitsPerEm;
    return done({
      family: font.familyName ?? name,
      capHeight: capital > 0 && Number.isFinite(capital) ? capital : stated,
      unitsPerEm: font.unitsPerEm,
      has: (codePoint) => font.hasGlyphForCodePoint(codePoint),
      layout: (text) => font.layout(text),
    });
  } catch {
    return badInput(`“${name}” can not be read as a font.`, mend);
  }
}
