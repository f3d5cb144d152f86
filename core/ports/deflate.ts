/** zlib-wrapped deflate; the same bytes for the same input on every platform (so not the system's own zlib). */
export type Deflate = (bytes: Uint8Array) => Uint8Array;
