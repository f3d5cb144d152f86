/** The part of fontkit that this folder uses. Its own types would bring Node's into core. */
declare module 'fontkit' {
  export interface Bounds {
    readonly minX: number;
    readonly minY: number;
    readonly maxX: number;
    readonly maxY: number;
  }
  export interface PathCommand {
    readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
    readonly args: readonly number[];
  }
  export interface GlyphPath {
    readonly commands: readonly PathCommand[];
    readonly bbox: Bounds;
    transform(a: number, b: number, c: number, d: number, e: number, f: number): GlyphPath;
  }
  export interface Glyph {
    readonly path: GlyphPath;
  }
  export interface GlyphRun {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly {
      readonly xAdvance: number;
      readonly xOffset: number;
      readonly yOffset: number;
    }[];
  }
  export interface Font {
    readonly unitsPerEm: number;
    readonly familyName: string | null;
    readonly capHeight: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    glyphForCodePoint(codePoint: number): Glyph;
    layout(text: string): GlyphRun;
  }
  export interface FontCollection {
    readonly fonts: readonly Font[];
  }
  export function create(bytes: Uint8Array): Font | FontCollection;
}
