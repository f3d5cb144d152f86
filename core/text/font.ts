import * as fontkit from 'fontkit';
import { textTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { MOST_FONT_BYTES } from './setting.ts';

/** A letter's outline and where it stands beside the one before, in units of the font. */
export interface Letter {
  readonly path: fontkit.GlyphPath;
  readonly xAdvance: number;
  readonly xOffset: number;
  readonly yOffset: number;
}

/** Letters as outlines, in units of the font, y up, its baseline at 0. */
export interface Lettering {
  /** Height of a capital: that of the drawn H, where there is one. */
  readonly capHeight: number;
  readonly has: (codePoint: number) => boolean;
  /** Refused where the font's own tables for these letters are damaged. */
  readonly layout: (text: string) => Outcome<readonly Letter[]>;
  readonly unitsPerEm: number;
}

/** The first font of the file. Bytes are never trusted: whatever breaks while they are read is one sentence. */
export function openFont(bytes: Uint8Array, name: string): Outcome<Lettering & { readonly family: string }> {
  if (bytes.length > MOST_FONT_BYTES)
    return textTrouble.fontTooLarge(name, Math.round(bytes.length / 1048576), MOST_FONT_BYTES / 1048576);
  const damaged = () => textTrouble.fontDamaged(name);
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
      has(codePoint) {
        try {
          return font.hasGlyphForCodePoint(codePoint);
        } catch {
          return false;
        }
      },
      layout(text) {
        try {
          const { glyphs, positions } = font.layout(text);
          // Outlines are read when they are first asked for: here, where damage is still told from a mistake of ours.
          const letters = glyphs.map(({ path }, i) => ({ path, ...positions[i]! }));
          const sound = letters.every((letter) =>
            [letter.xAdvance, letter.xOffset, letter.yOffset].every(Number.isFinite),
          );
          return sound ? done(letters) : damaged();
        } catch {
          return damaged();
        }
      },
    });
  } catch {
    return textTrouble.fontUnread(name);
  }
}
