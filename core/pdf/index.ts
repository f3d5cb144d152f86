export { assemblyPdf, bindAssembly } from './assemblyPdf.ts';
export { type CalibrationPdfOptions, calibrationPdf } from './calibrationPdf.ts';
export { type FilmsPdfOptions, filmsPdf } from './filmsPdf.ts';
export type { RunSheet, SheetLot, SheetPull } from './runSheet.ts';
export { runSheetPdf } from './runSheetPdf.ts';
export { separationsPdf } from './separationsPdf.ts';
export { stepTestPdf } from './stepTestPdf.ts';
export { templatesPdf } from './templatesPdf.ts';
export { PATCH_TONES, tonePatchesPdf } from './tonePatchesPdf.ts';
