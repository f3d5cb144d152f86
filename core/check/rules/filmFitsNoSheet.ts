import type { FaceRule } from '../rule.ts';

/** A film that can't be cut into sheets can't be printed. */
export const filmFitsNoSheet: FaceRule = (job, { face, sheets }) =>
  sheets
    .filter((sheet) => !sheet.fits)
    .map(({ ink, reason }) => {
      const name = job.faces[face].inks.find(({ id }) => id === ink)?.name ?? ink;
      return {
        code: 'film-fits-no-sheet',
        severity: 'error',
        face,
        ink,
        art: null,
        what: `The film of ${name} can't be laid out on ${job.printer.sheet} sheets.${reason ? ` ${reason}` : ''}`,
        where: 'whole face',
        at: null,
        mend: 'Choose a larger sheet, a smaller margin or a smaller overlap.',
      } as const;
    });
