import { badInput, fileTrouble, type Said } from './failure.ts';

export const shopTrouble = {
  shelfFull: (most: Said, inks: Said) =>
    badInput(
      `The shelf takes ${most} inks, and these would make ${inks}.`,
      'Take some off first, or add fewer.',
    ),
  paletteTooLong: (colours: Said, most: Said) =>
    badInput(
      `The palette holds ${colours} colours, and a shelf takes ${most}.`,
      'Keep only your inks in it.',
    ),
  newer: (version: Said) =>
    badInput(
      `Your shop’s figures were kept by a newer Kickflat (version ${version}).`,
      'Update Kickflat to use them; they were left as they are.',
    ),
  damagedAt: (place: Said) =>
    badInput(
      `Your shop’s figures are damaged at ${place}.`,
      'Mend that place, or keep the figures of a job for the shop again.',
    ),
  noPrinter: () =>
    badInput(
      'Your shop keeps no printer yet.',
      'Keep one in the Films station, or a job’s own with kickflat shop JOB.',
    ),
  printerWithoutName: () =>
    badInput('A printer needs a name to be kept in your shop.', 'Give it one with --name.'),
  shelfEmpty: () => badInput('The shelf is empty.', 'Put inks on it with --add, or in the studio.'),
  unread: () =>
    fileTrouble(
      'Your shop’s figures can not be read.',
      'See that the folder Kickflat keeps its state in may be read.',
    ),
  notJson: () =>
    badInput(
      'Your shop’s figures are damaged: they are no JSON.',
      'Keep the figures of a job for the shop again; the damaged file is laid aside.',
    ),
  notKept: () =>
    fileTrouble(
      'Your shop’s figures could not be kept.',
      'See that there is room and that the folder Kickflat keeps its state in may be written.',
    ),
};
