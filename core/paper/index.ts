export { ACCENT, SOFT } from './assemblyGuide.ts';
export { type AssemblyOptions, assemblyPages } from './assemblyPages.ts';
export { Paper, type PaperImage, type PaperPage, type Tint, tintOf } from './paper.ts';
export { FACE_NAMES } from './standardFont.ts';
