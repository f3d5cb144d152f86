export { assemblyPdf } from './assemblyPdf.ts';
export { type CalibrationPdfOptions, calibrationPdf } from './calibrationPdf.ts';
export { type FilmsPdfOptions, filmsPdf } from './filmsPdf.ts';
export { separationsPdf } from './separationsPdf.ts';
