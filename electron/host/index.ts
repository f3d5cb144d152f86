export { deflate } from './deflate.ts';
export { sharpCodec } from './sharpCodec.ts';
