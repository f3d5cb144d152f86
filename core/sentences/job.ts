import { badInput, type Said } from './failure.ts';

const OLDER = 'Open an older copy, or send the file to whoever made it.';

export const jobTrouble = {
  faceWithoutArt: (face: Said) => badInput(`The ${face} has no art.`, 'Place some art on it first.'),
  faceWithoutInks: (face: Said) => badInput(`The ${face} has no inks.`, 'Choose its inks first.'),
  noLayerForInks: (face: Said) =>
    badInput(
      `No layer of the ${face} is for one of its inks.`,
      'Say which ink each layer prints, or split the art by its flat colours instead.',
    ),
  damagedFile: (what: Said) =>
    badInput(
      `This job file is damaged: ${what}.`,
      'Open the backup beside it (its name ends in .kickflat.bak), or an older copy.',
    ),
  notZip: () =>
    badInput('This is not a Kickflat job: it is not a zip archive.', 'Pick a file that ends in .kickflat.'),
  noDocument: () =>
    badInput(
      'This zip archive holds no job.json.',
      'Pick a file that Kickflat saved; its name ends in .kickflat.',
    ),
  notObject: () => badInput('This is not a Kickflat job: its document is not an object.', OLDER),
  noVersion: () => badInput('This job is damaged: it states no version.', OLDER),
  newer: (version: Said, known: Said) =>
    badInput(
      `This job was saved by a newer Kickflat (document version ${version}; this one reads up to ${known}).`,
      'Update Kickflat to open it; the file was left as it is.',
    ),
  damagedAt: (place: Said) => badInput(`This job is damaged at ${place}.`, OLDER),
  faceHasTwice: (face: Said, id: Said) =>
    badInput(`This job is damaged: the ${face} face has “${id}” twice.`, OLDER),
  hasTwice: (id: Said) => badInput(`This job is damaged: it has “${id}” twice.`, OLDER),
  nothingToPrint: () =>
    badInput(
      'This job has no art and inks yet.',
      'Add some with kickflat add JOB --art FILE, or in the studio.',
    ),
  noInk: (ink: Said, inks: Said) => badInput(`The job has no ink “${ink}”.`, `Choose ${inks}.`),
  tooManyColourways: () =>
    badInput('A job holds 50 colourways at most.', 'Remove one that is no longer printed.'),
  noColourway: (colourway: Said, mend: string) => badInput(`The job has no colourway “${colourway}”.`, mend),
  noArt: () =>
    badInput('This job has no art yet.', 'Add some with kickflat add JOB --art FILE, or in the studio.'),
};
