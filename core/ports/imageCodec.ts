import type { Mask, Picture } from '../raster/index.ts';
import type { Abort, Outcome, Px } from '../units/index.ts';
import type { ArtLayer } from './artLayers.ts';

export type ArtMediaType =
  | 'image/png'
  | 'image/jpeg'
  | 'image/webp'
  | 'image/tiff'
  | 'image/avif'
  | 'image/svg+xml';

/** What a file is, found from its bytes and never from its name. */
export interface ArtProbe {
  readonly mediaType: ArtMediaType;
  /** After orientation. SVG: its user units (its viewBox, or its size in CSS px). */
  readonly widthPx: Px;
  readonly heightPx: Px;
  /** Stated physical size in mm, where the file states one (dpi in a picture, mm/cm/in/pt units in an SVG). */
  readonly stated: { readonly width: number; readonly height: number } | null;
  readonly alpha: boolean;
  readonly vector: boolean;
}

/** A part of an SVG: `x, y, width, height` in its user units, drawn to `outWidth` × `outHeight` points. */
export interface SvgWindow {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly outWidth: Px;
  readonly outHeight: Px;
  /** A first look at a drawing that is being imported: refused when it and all before it take too long for someone waiting. */
  readonly look?: boolean;
}

/** Pictures in and out. Every limit (bytes, pixels, elements, time) is the codec's to hold; failures are sentences. */
export interface ImageCodec {
  probe(bytes: Uint8Array, name: string): Promise<Outcome<ArtProbe>>;
  /**
   * Begins to look whether a drawing can be drawn in time, for who asks for windows of it soon and for no look at the whole: they wait no
   * longer than they would, and hear what is wrong with it. Says nothing itself.
   */
  tryDrawing?(bytes: Uint8Array, name: string): void;
  /** A picture to sRGB, straight alpha, orientation applied; scaled down to fit `maxSidePx` when given. Not for SVG. */
  decode(bytes: Uint8Array, name: string, maxSidePx?: Px, abort?: Abort): Promise<Outcome<Picture>>;
  /** A window of an SVG, antialiased. This and a decoding end as cancelled soon after `abort` says so. */
  rasterise(bytes: Uint8Array, name: string, window: SvgWindow, abort?: Abort): Promise<Outcome<Picture>>;
  /**
   * The layers of a file prepared one ink a layer, undermost first: OpenRaster; a PDF's pages or optional groups; an SVG's
   * groups. An empty list: a picture that has none. A PDF of one page has one.
   */
  layers(bytes: Uint8Array, name: string): Promise<Outcome<readonly ArtLayer[]>>;
  encodePng(picture: Picture, dpi: number): Promise<Uint8Array>;
  /** 1-bit greyscale PNG: black (0) where the mask has ink, white elsewhere. */
  encodeMaskPng(mask: Mask, dpi: number): Promise<Uint8Array>;
  /** Said when a face's art was gone through and threads are busy with what was made of it: pictures given out before may be freed. */
  letGo?(): void;
}
