export type { ArtLayer } from './artLayers.ts';
export type { Deflate } from './deflate.ts';
export type { FileStore } from './fileStore.ts';
export type { ArtMediaType, ArtProbe, ImageCodec, SvgWindow } from './imageCodec.ts';
export type {
  ExportedFiles,
  ExportRequest,
  LongWork,
  OpenedJob,
  PickedFile,
  RecentJob,
  SavedJob,
  Shell,
  ShellInfo,
} from './shell.ts';
export type { Workers } from './workers.ts';
