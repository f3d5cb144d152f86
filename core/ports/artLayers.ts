/** One layer of a file that was prepared in layers, as a picture or a drawing of its own on the whole file's canvas. */
export interface ArtLayer {
  readonly name: string;
  /** A PNG or an SVG. */
  readonly bytes: Uint8Array;
  /** Hidden in the file: not meant to be seen. */
  readonly hidden: boolean;
  /** The file states no size of its own; the layer's density is only the usual one of its format. */
  readonly unsized?: boolean;
}
