import type { FaceJob, Job } from './job/index.ts';

const face = ({ inks, ...rest }: FaceJob) => ({ ...rest, inks: inks.map(({ meshPerCm: _, ...ink }) => ink) });

/** All of a job that its films are made from: two jobs with one key have the same films. Meshes change none. */
export function measureKey({ deck, faces, printer, press }: Job): string {
  const { frameWidth, frameLength, offContact, blade, maxStretch, compensateGrowth } = press;
  const { overlap, margin, dpi, sheet, sheetWidth, sheetHeight } = printer;
  return JSON.stringify([
    deck,
    face(faces.bottom),
    face(faces.top),
    [frameWidth, frameLength, offContact, blade, maxStretch, compensateGrowth],
    [overlap, margin, dpi, sheet, sheetWidth, sheetHeight],
  ]);
}
