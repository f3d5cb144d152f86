/** Compiles core/raster/kernels/assembly; the same sources give the same bytes. */
export function compileKernels(): Promise<Buffer>;
/** The text of kernels.generated.ts that holds a module's bytes. */
export function kernelsFile(wasm: Uint8Array): string;
